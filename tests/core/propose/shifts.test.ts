import { describe, expect, it } from 'vitest';
import type { FreePosition } from '../../../core/propose/objective.ts';
import { onlyShifts, shiftsOf } from '../../../core/propose/shifts.ts';

const pad = (name: string, valuesDb: readonly number[], nowIndex: number, onInput = false): FreePosition => ({
  name,
  kind: 'pad',
  valuesDb,
  nowIndex,
  pathLossDb: valuesDb.map((valueDb) => Float64Array.of(valueDb, valueDb)),
  inputLossDb: valuesDb.map((valueDb) => (onInput ? valueDb : 0)),
});

it('knows what only shifts: the same loss at every row, for every candidate', () => {
  expect(onlyShifts(pad('pad', [0, 3], 0))).toBe(true);
  expect(onlyShifts({ ...pad('pad', [0], 0), pathLossDb: [Float64Array.of(1, 1.5)] })).toBe(false);
});

describe('shiftsOf', () => {
  it('has one way of changing nothing when there is nothing to change', () =>
    expect(shiftsOf([])).toEqual([
      {
        sumDb: Float64Array.of(0),
        inputDb: Float64Array.of(0),
        padDb: Float64Array.of(0),
        indices: [[]],
        uses: [[]],
      },
    ]));

  it('sorts by number of changes and rising sum, equal sums once, the earlier values first', () => {
    const shifts = shiftsOf([pad('first', [0, 1, 2], 0), pad('second', [0, 1, 2], 0)]) ?? [];
    expect(shifts.map(({ sumDb }) => [...sumDb])).toEqual([[0], [1, 2], [2, 3, 4]]);
    expect(shifts[1]?.indices).toEqual([
      [0, 1],
      [0, 2],
    ]);
    expect(shifts[2]?.indices[1]).toEqual([1, 2]);
  });

  it('keeps equal sums apart when they differ at the stage input', () => {
    const shifts = shiftsOf([pad('first', [0, 1], 0, true), pad('second', [0, 1], 0)]) ?? [];
    expect([...(shifts[1]?.inputDb ?? [])]).toEqual([0, 1]);
  });

  it('of equal effects keeps the least pad', () => {
    const trim: FreePosition = { ...pad('trim', [0, 5], 0), kind: 'equalizer' };
    const shifts = shiftsOf([trim, pad('pad', [0, 5], 0)]) ?? [];
    expect([...(shifts[1]?.padDb ?? [])]).toEqual([0]);
  });

  it('gives up rather than fill the memory', () => {
    const fine = (i: number) => Array.from({ length: 60 }, (_, v) => v * (1 + i * 0.0137) + i * 1e-4);
    expect(shiftsOf([0, 1, 2, 3, 4].map((i) => pad(`pad ${i}`, fine(i), 0, i % 2 === 0)))).toBeNull();
  });
});
