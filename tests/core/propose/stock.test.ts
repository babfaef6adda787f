import { describe, expect, it } from 'vitest';
import { Station } from '../../../core/files/station.ts';
import { Truck } from '../../../core/files/truck.ts';
import { propose } from '../../../core/propose/propose.ts';
import {
  isWithinStock,
  keyAt,
  partKey,
  scarceParts,
  stockedSumsDb,
  stockOf,
  usesTogether,
  valuesAtHand,
} from '../../../core/propose/stock.ts';
import { inputRows, rows, station } from './mill-lane.ts';

const truck = (parts: readonly unknown[]) => Truck.parse({ format: 'tiltwright-truck/1', parts });
const [pad, equalizer, second] = station.positions;
if (pad === undefined || equalizer === undefined || second === undefined) throw new Error('no positions');

describe('a part', () => {
  it('is its kind, top frequency and value', () => {
    expect(keyAt(pad, 6)).toBe(partKey({ kind: 'pad', valueDb: 6 }));
    expect(keyAt(equalizer, 8)).not.toBe(partKey({ kind: 'equalizer', topMhz: 1002, valueDb: 8 }));
    expect(stockOf(truck([{ kind: 'pad', valueDb: 6, count: 2 }])).get(keyAt(pad, 6))).toBe(2);
  });
});

describe('what is at hand', () => {
  const now = { 'input pad': 6, 'input equalizer': 8, 'interstage pad': 3, 'interstage equalizer': 0 };
  it('is what is in, what the truck holds and what another position may give up', () =>
    expect(
      valuesAtHand(
        pad,
        [0, 1, 3, 6, 7],
        station.positions,
        now,
        stockOf(truck([{ kind: 'pad', valueDb: 7, count: 1 }])),
      ),
    ).toEqual([3, 6, 7]));
  it('runs short where more positions want a part than there are', () => {
    const wanted = [pad, second].map((position, i) => ({
      position,
      valuesDb: [3, 5, 6],
      nowDb: i === 0 ? 6 : 3,
    }));
    const { counts, uses } = scarceParts(wanted, stockOf(truck([{ kind: 'pad', valueDb: 5, count: 1 }])));
    expect(counts).toEqual([0, 1, 0]);
    // Keys in the order met: 3, 5, 6. The first position goes from 6 to 3: takes a 3, gives a 6 back.
    expect(uses[0]).toEqual([
      [1, 0, -1],
      [0, 1, -1],
      [0, 0, 0],
    ]);
    expect(isWithinStock(usesTogether([1, 0, -1], [-1, 0, 1]), counts)).toBe(true);
    expect(isWithinStock([1, 0, -1], counts)).toBe(false);
  });
  it('allows only such sums up to the stage input', () => {
    const free = [
      { valuesDb: [3, 6], nowIndex: 1, use: [[1], [0]] },
      { valuesDb: [3, 6], nowIndex: 1, use: [[1], [0]] },
    ].map((one, i) => ({ ...one, name: `p${i}`, kind: 'pad' as const, pathLossDb: [], inputLossDb: [3, 6] }));
    expect(stockedSumsDb(free, [1])?.sort()).toEqual([12, 9]);
    expect(stockedSumsDb(free, [0])).toEqual([12]);
  });
});

describe('a proposal', () => {
  it('moves a part from one position to another, with nothing in the truck', () => {
    const two = Station.parse({
      ...station,
      positions: [
        { ...pad, installed: 0, values: [0, 4] },
        { ...second, installed: 4, values: [0, 4] },
        ...station.positions
          .filter(({ kind }) => kind !== 'pad')
          .map((one) => ({ ...one, values: [one.installed] })),
      ],
    });
    // 12 dBmV behind a pad of 4: the stage input, 8 to 14 dBmV less the equalizer's 1 dB, wants one where none is now.
    const level = inputRows.map(({ frequencyMhz }) => ({ frequencyMhz, levelDbmv: 18 }));
    const moved = propose({ rows, station: two, inputRows: level, truck: truck([]) });
    expect(moved).toMatchObject({ ok: true, value: { feasible: true } });
    if (moved.ok)
      expect(moved.value.recommended.values).toMatchObject({ 'input pad': 4, 'interstage pad': 0 });
  });
  it('stays where the truck is empty, and says that nothing better is at hand', () => {
    const proposal = propose({ rows, station, truck: truck([]) });
    expect(proposal).toMatchObject({ ok: true, value: { recommended: { changes: [] }, alternatives: [] } });
  });
  it('with enough of everything is what it is without a truck', () => {
    const all = station.positions.flatMap((position) =>
      position.values.map((valueDb) =>
        position.kind === 'pad'
          ? { kind: position.kind, valueDb, count: 9 }
          : { kind: position.kind, topMhz: position.topMhz, valueDb, count: 9 },
      ),
    );
    const unique = [...new Map(all.map((part) => [partKey(part), part])).values()];
    const without = propose({ rows, station, inputRows });
    if (!without.ok) throw new Error(without.help);
    expect(propose({ rows, station, inputRows, truck: truck(unique) })).toEqual({
      ok: true,
      value: { ...without.value, beyondTruck: null },
    });
  });
});
