import fc from 'fast-check';
import { expect, it } from 'vitest';
import { tuningOrder } from '../../../core/meters/tuning-order.ts';

it('rises unless the top is nearer to where the meter is', () => {
  expect(tuningOrder([711, 57, 423], null)).toEqual([57, 423, 711]);
  expect(tuningOrder([711, 57, 423], 60)).toEqual([57, 423, 711]);
  expect(tuningOrder([711, 57, 423], 700)).toEqual([711, 423, 57]);
  expect(tuningOrder([], 5)).toEqual([]);
});
it('keeps every frequency and never travels farther than once across the band and to its nearer end', () => {
  const mhz = fc.double({ min: 5, max: 1218, noNaN: true });
  fc.assert(
    fc.property(fc.array(mhz, { minLength: 1, maxLength: 30 }), mhz, (plan, tunedMhz) => {
      const order = tuningOrder(plan, tunedMhz);
      const sorted = (list: readonly number[]) => list.toSorted((a, b) => a - b);
      expect(sorted(order)).toEqual(sorted(plan));
      const travel = (list: readonly number[]) =>
        list.reduce((sum, to, i) => sum + Math.abs(to - (list[i - 1] ?? tunedMhz)), 0);
      expect(travel(order)).toBeLessThanOrEqual(travel(plan) + 1e-6);
    }),
    { seed: 3, numRuns: 300 },
  );
});
