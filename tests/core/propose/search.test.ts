import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { installedOf, Station } from '../../../core/files/station.ts';
import { objectiveOf } from '../../../core/propose/objective.ts';
import { searchCombinations } from '../../../core/propose/search.ts';
import { everyCombination } from './full-enumeration.ts';
import { rows, station } from './mill-lane.ts';

const valuesDb = fc.uniqueArray(fc.integer({ min: 0, max: 24 }), { minLength: 3, maxLength: 5 });
const rippleDb = fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: 8, maxLength: 8 });

/** Five equalizers and cable simulators and a pad: enough depth for branches to be left. */
const deep = fc.tuple(fc.array(valuesDb, { minLength: 6, maxLength: 6 }), rippleDb).map(([lists, ripple]) => {
  const positions = lists.map((values, i) => ({
    name: `position ${i}`,
    installed: values[0] ?? 0,
    values,
    ...(i === 5
      ? { kind: 'pad' as const }
      : { kind: i % 2 === 0 ? ('equalizer' as const) : ('cable-simulator' as const), topMhz: 870 - 60 * i }),
  }));
  const design = { ...station.ports[0]?.design, toleranceDb: 1 };
  const of = Station.parse({
    format: 'tiltwright-station/1',
    id: 'deep',
    name: 'deep',
    ports: [{ name: 'output', direction: 'forward', design, through: positions.map(({ name }) => name) }],
    positions,
  });
  const found = ripple.map((offDb, i) => ({ frequencyMhz: 60 + 110 * i, levelDbmv: 38 + i + offDb }));
  return { of, found };
});

const objectiveFor = (of: Station, found: typeof rows) => {
  const port = of.ports[0];
  if (port?.design === undefined) throw new Error('no design');
  return objectiveOf(found, of, port, port.design, installedOf(of), null);
};

describe('searchCombinations', () => {
  it('finds the least worst channel for every number of changes, many positions deep', () => {
    fc.assert(
      fc.property(deep, fc.constantFrom(1, 4), ({ of, found }, keep) => {
        const lists = searchCombinations(objectiveFor(of, found), null, keep);
        const tried = everyCombination(found, of, 'output', undefined);
        lists?.forEach((list, changes) => {
          const wanted = tried
            .filter((one) => one.changes === changes)
            .map(({ worstDb }) => worstDb)
            .sort((a, b) => a - b);
          expect(list[0]?.worstDb).toBeCloseTo(wanted[0] ?? Number.NaN, 8);
          expect(list.length).toBeLessThanOrEqual(keep);
          // The k-th kept can't be better than the k-th there is: combinations with equal effect are kept once.
          list.forEach(({ worstDb }, i) => {
            expect(worstDb).toBeGreaterThan((wanted[i] ?? Number.NaN) - 1e-8);
          });
        });
        expect(lists).toHaveLength(7);
      }),
      { numRuns: 15 },
    );
  }, 60_000);

  it('keeps each list in order and its numbers of changes right', () => {
    const objective = objectiveFor(station, rows);
    const lists = searchCombinations(objective, null, 6) ?? [];
    lists.forEach((list, changes) => {
      for (const { changeCount, indices } of list) {
        expect(changeCount).toBe(changes);
        expect(indices.filter((index, p) => index !== objective.free[p]?.nowIndex)).toHaveLength(changes);
      }
      list.forEach(({ worstDb }, i) => {
        expect(worstDb).toBeGreaterThanOrEqual((list[i - 1]?.worstDb ?? 0) - 1e-9);
      });
    });
    expect(lists[0]).toHaveLength(1);
  });

  it('keeps to the window of the stage input, both ends included', () => {
    const { used, ...objective } = objectiveFor(station, rows);
    const free = objective.free.map((position) => ({
      ...position,
      inputLossDb: position.valuesDb.map((valueDb) => (position.name === 'input pad' ? valueDb : 0)),
    }));
    const lists = searchCombinations({ ...objective, used, free }, { minLossDb: 9, maxLossDb: 9 }, 50);
    const pads = lists?.flat().map(({ indices }) => indices[0]);
    expect(pads?.length).toBeGreaterThan(10);
    expect(new Set(pads)).toEqual(new Set([9]));
  });

  it('gives up where it would take too long', () =>
    expect(searchCombinations(objectiveFor(station, rows), null, 6, 1000)).toBeNull());
});
