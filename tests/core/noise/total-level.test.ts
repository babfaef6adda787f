import fc from 'fast-check';
import { expect, it } from 'vitest';
import { totalOfEqualDbmv } from '../../../core/noise/total-level.ts';
import worked from '../../data/published/noise-worked.json' with { type: 'json' };
import { anyNumber } from '../../support/any-number.ts';

// Hranac, "Broadband: Total Power": + 10 log n, 79 channels: + 18.98 dB.
it('adds 10 log n', () => {
  const total = totalOfEqualDbmv(40, 79);
  expect(total.ok && total.value - 40).toBeCloseTo(worked.equal79Db, 2);
  expect(totalOfEqualDbmv(40, 1)).toEqual({ ok: true, value: 40 });
});

it('refuses no signal and half a signal, and is finite otherwise', () => {
  for (const count of [0, -1, 2.5, Number.NaN]) expect(totalOfEqualDbmv(40, count).ok).toBe(false);
  fc.assert(
    fc.property(anyNumber, anyNumber, (level, count) => {
      const total = totalOfEqualDbmv(level, count);
      return !total.ok || Number.isFinite(total.value);
    }),
  );
});
