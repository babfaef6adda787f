import fc from 'fast-check';
import { expect, it } from 'vitest';
import { totalFromPerSixMhzDbmv } from '../../../core/channels/ofdm-power.ts';
import worked from '../../data/published/levels-worked.json' with { type: 'json' };
import { anyNumber } from '../../support/any-number.ts';

it('adds what the published widths add', () => {
  for (const [widthMhz, addedDb] of worked.ofdmTotalOverSixMhz) {
    const total = totalFromPerSixMhzDbmv(30, widthMhz ?? Number.NaN);
    expect(total.ok && total.value - 30).toBeCloseTo(addedDb ?? Number.NaN, 2);
  }
});

it('is finite or refused', () => {
  fc.assert(
    fc.property(anyNumber, anyNumber, (level, mhz) => {
      const total = totalFromPerSixMhzDbmv(level, mhz);
      return !total.ok || Number.isFinite(total.value);
    }),
  );
  expect(totalFromPerSixMhzDbmv(30, 0)).toMatchObject({ ok: false, code: 'out-of-range' });
  expect(totalFromPerSixMhzDbmv(30, -6)).toMatchObject({ ok: false, code: 'out-of-range' });
});
