import fc from 'fast-check';
import { expect, it } from 'vitest';
import { apart, levelSpan, placeOn, ticksOf } from '../../../core/report/axes.ts';

it('takes round numbers inside a span, as many as there is room for', () => {
  expect(ticksOf({ low: 34, high: 48 }, 7)).toEqual([34, 36, 38, 40, 42, 44, 46, 48]);
  expect(ticksOf({ low: 54, high: 870 }, 9)).toEqual([100, 200, 300, 400, 500, 600, 700, 800]);
  expect(ticksOf({ low: 5, high: 5 }, 9)).toEqual([]);
});

it('holds every level and is never flatter than 12 dB', () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: -60, max: 90, noNaN: true }), { minLength: 1 }), (levels) => {
      const { low, high } = levelSpan(levels);
      expect(high - low).toBeGreaterThanOrEqual(12);
      expect(Math.min(...levels)).toBeGreaterThan(low);
      expect(Math.max(...levels)).toBeLessThan(high);
    }),
  );
});

it('places a value on a straight line, and never divides by nothing', () => {
  expect(placeOn({ low: 0, high: 10 }, 5, 100, 0)).toBe(50);
  expect(placeOn({ low: 3, high: 3 }, 3, 0, 10)).toBe(5);
});

it('moves labels apart in their order, above the bottom', () => {
  expect(apart([10, 12, 30], 11, 100)).toEqual([10, 21, 32]);
  expect(apart([30, 95, 98], 11, 100)).toEqual([30, 89, 100]);
  expect(apart([12, 10], 11, 100)).toEqual([21, 10]);
});
