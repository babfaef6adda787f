import fc from 'fast-check';
import { expect, it } from 'vitest';
import { perSixMhzDbmv, totalFromPerSixMhzDbmv } from '../../../core/channels/ofdm-power.ts';
import worked from '../../data/published/levels-worked.json' with { type: 'json' };
import { anyNumber } from '../../support/any-number.ts';

it('adds what the published widths add', () => {
  for (const [widthMhz, addedDb] of worked.ofdmTotalOverSixMhz) {
    const total = totalFromPerSixMhzDbmv(30, widthMhz ?? Number.NaN);
    expect(total.ok && total.value - 30).toBeCloseTo(addedDb ?? Number.NaN, 2);
  }
});

it('comes back where it began', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -60, max: 60, noNaN: true }),
      fc.double({ min: 1, max: 400, noNaN: true }),
      (level, mhz) => {
        const total = totalFromPerSixMhzDbmv(level, mhz);
        const back = total.ok ? perSixMhzDbmv(total.value, mhz) : total;
        return back.ok && Math.abs(back.value - level) < 1e-9;
      },
    ),
  );
});

it('is finite or refused', () => {
  fc.assert(
    fc.property(anyNumber, anyNumber, (level, mhz) =>
      [perSixMhzDbmv(level, mhz), totalFromPerSixMhzDbmv(level, mhz)].every(
        (told) => !told.ok || Number.isFinite(told.value),
      ),
    ),
  );
  expect(perSixMhzDbmv(30, 0)).toMatchObject({ ok: false, code: 'out-of-range' });
  expect(perSixMhzDbmv(30, -6)).toMatchObject({ ok: false, code: 'out-of-range' });
});
