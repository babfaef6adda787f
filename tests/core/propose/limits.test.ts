import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inputLevelAt, nearestMissDb } from '../../../core/propose/limits.ts';
import type { FreePosition } from '../../../core/propose/objective.ts';

const rows = [
  { frequencyMhz: 800, levelDbmv: 22 },
  { frequencyMhz: 900, levelDbmv: 20 },
  { frequencyMhz: 950, levelDbmv: 10 },
];

describe('inputLevelAt', () => {
  it('lies on the line between the two rows around', () =>
    expect(inputLevelAt(rows, 870)).toEqual({ levelDbmv: 20.6, outside: false }));
  it('goes on through the two nearest beyond the rows, and says so', () => {
    expect(inputLevelAt(rows, 1000)).toEqual({ levelDbmv: 0, outside: true });
    expect(inputLevelAt(rows, 700)).toEqual({ levelDbmv: 24, outside: true });
  });
  it('takes rows at one frequency as their mean', () =>
    expect(inputLevelAt([...rows.slice(0, 1), { frequencyMhz: 800, levelDbmv: 24 }], 800)).toEqual({
      levelDbmv: 23,
      outside: false,
    }));
  it('is null where nothing can be told', () => {
    expect(inputLevelAt([], 870)).toBeNull();
    expect(inputLevelAt(rows.slice(0, 1), 870)).toBeNull();
  });
});

const position = (inputLossDb: readonly number[]): FreePosition => ({
  name: 'p',
  kind: 'pad',
  valuesDb: inputLossDb,
  nowIndex: 0,
  pathLossDb: [],
  inputLossDb,
});

describe('nearestMissDb', () => {
  it('is 0 inside the window, its ends included', () => {
    expect(nearestMissDb([position([0, 5])], 5, 7)).toBe(0);
    expect(nearestMissDb([position([0, 7])], 5, 7)).toBe(0);
  });
  it('is the smallest miss on either side', () => {
    expect(nearestMissDb([position([0, 3])], 5, 7)).toBe(2);
    expect(nearestMissDb([position([0, 8, 20])], 5, 7)).toBe(1);
    expect(nearestMissDb([], 5, 7)).toBe(5);
  });
  it('agrees with trying every sum', () => {
    const losses = fc.array(fc.double({ min: 0, max: 20, noNaN: true }), { minLength: 1, maxLength: 4 });
    const lists = fc.array(losses, { maxLength: 5 });
    fc.assert(
      fc.property(
        lists,
        fc.integer({ min: -10, max: 90 }),
        fc.integer({ min: 0, max: 5 }),
        (all, low, width) => {
          const sums = all.reduce<number[]>(
            (some, list) => some.flatMap((sum) => list.map((x) => sum + x)),
            [0],
          );
          const wanted = Math.min(...sums.map((sum) => Math.max(low - sum, sum - low - width, 0)));
          expect(nearestMissDb(all.map(position), low, low + width)).toBeCloseTo(wanted, 9);
        },
      ),
      { numRuns: 300 },
    );
  });
  it('gives up rather than fill the memory', () => {
    const fine = (i: number) => Array.from({ length: 300 }, (_, v) => v * (1 + i * 0.0137));
    expect(
      nearestMissDb(
        [0, 1, 2, 3, 4, 5].map((i) => position(fine(i))),
        1e6,
        1e6,
      ),
    ).toBeNull();
  });
});
