import fc from 'fast-check';
import { expect, it } from 'vitest';
import { tuningOrder } from '../../../core/meters/tuning-order.ts';

it('rises, and leaves the plan as it was given', () => {
  const plan = [711, 57, 423, 57];
  expect(tuningOrder(plan)).toEqual([57, 57, 423, 711]);
  expect(plan).toEqual([711, 57, 423, 57]);
  expect(tuningOrder([])).toEqual([]);
});

it('keeps every frequency, and no order tunes over less of the band', () => {
  const mhz = fc.double({ min: 5, max: 1218, noNaN: true });
  const travel = (list: readonly number[]) =>
    list.slice(1).reduce((sum, to, i) => sum + Math.abs(to - (list[i] ?? to)), 0);
  fc.assert(
    fc.property(fc.array(mhz, { minLength: 1, maxLength: 30 }), (plan) => {
      const order = tuningOrder(plan);
      expect(order.toSorted((a, b) => a - b)).toEqual(plan.toSorted((a, b) => a - b));
      expect(travel(order)).toBeLessThanOrEqual(travel(plan) + 1e-6);
    }),
    { seed: 3, numRuns: 300 },
  );
});
