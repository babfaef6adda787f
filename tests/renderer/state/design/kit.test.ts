import fc from 'fast-check';
import { expect, it } from 'vitest';
import { kitOf, kitTrouble, MOST_VALUES, valuesOf } from '../../../../renderer/state/design/kit.ts';

it('says values as a run in equal steps and what comes on top', () => {
  expect(kitOf([0, 1, 2, 3, 4])).toEqual({ fromDb: 0, toDb: 4, stepDb: 1, also: [] });
  expect(kitOf([0, 1.5, 3, 4.5, 8, 12])).toEqual({ fromDb: 0, toDb: 4.5, stepDb: 1.5, also: [8, 12] });
  expect(kitOf([3, 9])).toEqual({ fromDb: null, toDb: null, stepDb: null, also: [3, 9] });
  expect(kitOf([6])).toEqual({ fromDb: null, toDb: null, stepDb: null, also: [6] });
});

it('ends a run below what is no step, without a slip of binary arithmetic', () => {
  expect(valuesOf({ fromDb: 0, toDb: 1, stepDb: 0.3, also: [] })).toEqual([0, 0.3, 0.6, 0.9]);
  expect(valuesOf({ fromDb: 0.1, toDb: 0.7, stepDb: 0.2, also: [5, 0.3] })).toEqual([0.1, 0.3, 0.5, 0.7, 5]);
});

it('gives back every list of values that a file may hold', () => {
  fc.assert(
    fc.property(
      fc.uniqueArray(fc.integer({ min: 0, max: 6000 }), { minLength: 1, maxLength: 40 }),
      (hundredths) => {
        const values = hundredths.map((one) => one / 100).sort((a, b) => a - b);
        const kit = kitOf(values);
        expect(kitTrouble(kit)).toBeNull();
        expect(valuesOf(kit)).toEqual(values);
      },
    ),
  );
});

it('says what is no kit', () => {
  const kit = { fromDb: 0, toDb: 20, stepDb: 1, also: [] };
  expect(kitTrouble(kit)).toBeNull();
  expect(kitTrouble({ ...kit, toDb: null })).toBe('which values there are');
  expect(kitTrouble({ ...kit, fromDb: null, toDb: null, stepDb: null })).toBe('which values there are');
  expect(kitTrouble({ ...kit, fromDb: 21 })).toBe('values that end above where they begin');
  expect(kitTrouble({ ...kit, stepDb: 0 })).toBe('steps of more than 0 dB');
  expect(kitTrouble({ ...kit, stepDb: 0.01 })).toBe(`at most ${MOST_VALUES} values`);
});
