import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Truck } from '../../../core/files/truck.ts';
import { beyondTruck, lackedParts } from '../../../core/propose/beyond-truck.ts';
import { propose } from '../../../core/propose/propose.ts';
import { everyCombination } from './full-enumeration.ts';
import { rows, station } from './mill-lane.ts';
import { task } from './random-station.ts';

const truck = (parts: readonly unknown[] = []) => Truck.parse({ format: 'tiltwright-truck/1', parts });
const change = (position: string, from: number, to: number) => ({ position, from, to });

describe('what a choice needs beyond the truck', () => {
  it('counts what the truck holds and what the choice itself pulls out', () => {
    const changes = [
      change('input pad', 6, 5),
      change('input equalizer', 8, 10),
      change('interstage pad', 0, 6),
    ];
    expect(lackedParts(station, truck([{ kind: 'pad', valueDb: 5, count: 1 }]), { changes })).toEqual([
      { kind: 'equalizer', topMhz: 870, valueDb: 10, count: 1 },
    ]);
  });
  it('names a part as often as it is short', () => {
    const changes = [change('input pad', 6, 3), change('interstage pad', 0, 3)];
    expect(lackedParts(station, truck(), { changes })).toEqual([{ kind: 'pad', valueDb: 3, count: 2 }]);
    const one = truck([{ kind: 'pad', valueDb: 3, count: 1 }]);
    expect(lackedParts(station, one, { changes })).toEqual([{ kind: 'pad', valueDb: 3, count: 1 }]);
  });
  it('takes an equalizer for another top frequency as no such part', () => {
    const other = truck([{ kind: 'equalizer', topMhz: 1002, valueDb: 10, count: 4 }]);
    const changes = [change('input equalizer', 8, 10)];
    expect(lackedParts(station, other, { changes })).toHaveLength(1);
  });
});

describe('the sentence', () => {
  const choice = (changes: ReturnType<typeof change>[], worstDb: number) => ({
    values: {},
    changes,
    worstDb,
    flatnessDb: 0,
    fit: { lowDbmv: 36, highDbmv: 46, tiltDb: 10 },
  });
  const said = (parts: readonly unknown[], changes: ReturnType<typeof change>[]) =>
    beyondTruck(
      station,
      truck(parts),
      { choice: choice(changes, 0.3), bestWorstDb: 0.3 },
      { bestWorstDb: 1.4, slackDb: 0.25 },
    )?.text;
  it('names the parts and what they would give', () => {
    expect(said([], [change('input equalizer', 8, 14)])).toBe(
      'With an equalizer 14, which the truck lacks: 0.3 dB.',
    );
    expect(
      said([], [change('input equalizer', 8, 14), change('input pad', 6, 3), change('interstage pad', 0, 3)]),
    ).toBe('With an equalizer 14 and 2 pads 3, which the truck lacks: 0.3 dB.');
  });
  it('says for which top frequency where the truck holds the value for another one', () =>
    expect(
      said([{ kind: 'equalizer', topMhz: 1002, valueDb: 14, count: 1 }], [change('input equalizer', 8, 14)]),
    ).toBe('With an equalizer 14 for 870 MHz, which the truck lacks: 0.3 dB.'));
  it('is not said where it buys less than the slack, or nothing is short', () => {
    const less = { choice: choice([change('input equalizer', 8, 14)], 0.3), bestWorstDb: 0.3 };
    expect(beyondTruck(station, truck(), less, { bestWorstDb: 0.54, slackDb: 0.25 })).toBeNull();
    expect(beyondTruck(station, truck(), less, { bestWorstDb: 0.55, slackDb: 0.25 })).not.toBeNull();
    expect(
      said([{ kind: 'equalizer', topMhz: 870, valueDb: 14, count: 1 }], [change('input equalizer', 8, 14)]),
    ).toBe(undefined);
  });
  it('throws on a figure that is none', () =>
    expect(() =>
      beyondTruck(
        station,
        truck(),
        { choice: choice([], Number.NaN), bestWorstDb: 0 },
        { bestWorstDb: 1, slackDb: 0.25 },
      ),
    ).toThrow(RangeError));
});

describe('a proposal from a truck', () => {
  it('says what an empty truck keeps from the station', () => {
    const empty = propose({ rows, station, truck: truck() });
    const any = propose({ rows, station });
    if (!empty.ok || !any.ok) throw new Error('refused');
    expect(any.value.beyondTruck).toBeUndefined();
    expect(empty.value.beyondTruck?.bestWorstDb).toBeCloseTo(any.value.best.worstDb, 9);
    expect(empty.value.beyondTruck?.choice.worstDb).toBeLessThanOrEqual(any.value.best.worstDb + 0.25);
    expect(empty.value.beyondTruck?.lacks.length).toBeGreaterThan(0);
  });
  // The reference is every combination of the whole kit, tried row by row (full-enumeration.ts knows no truck).
  it('is the exact best of the whole kit, on random stations', () => {
    let saidCount = 0;
    fc.assert(
      fc.property(task, ({ station: of, rows: found, inputRows, slackDb }) => {
        const proposal = propose({
          rows: found,
          station: of,
          inputRows,
          slackDb,
          keepAll: true,
          truck: truck(),
        });
        if (!proposal.ok) throw new Error(proposal.help);
        const { beyondTruck: beyond, best, feasible } = proposal.value;
        if (beyond == null) return;
        saidCount++;
        const allowed = everyCombination(found, of, 'output', inputRows).filter(
          ({ missDb }) => missDb < 1e-8,
        );
        const least = Math.min(...allowed.map(({ worstDb }) => worstDb));
        expect(Math.abs(beyond.bestWorstDb - least)).toBeLessThan(2e-9);
        const near = allowed.filter(({ worstDb }) => worstDb <= least + slackDb + 1e-9);
        expect(beyond.choice.changes).toHaveLength(Math.min(...near.map(({ changes }) => changes)));
        if (feasible) expect(best.worstDb - beyond.choice.worstDb).toBeGreaterThanOrEqual(slackDb - 1e-8);
      }),
      { numRuns: 200 },
    );
    expect(saidCount).toBeGreaterThan(30);
  }, 60_000);
});
