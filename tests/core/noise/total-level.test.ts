import fc from 'fast-check';
import { expect, it } from 'vitest';
import { totalDbmv } from '../../../core/noise/total-level.ts';
import worked from '../../data/published/noise-worked.json' with { type: 'json' };
import { anyNumber } from '../../support/any-number.ts';

// Hranac, "Broadband: Total Power": + 10 log n, 79 channels: + 18.98 dB.
it('of equal levels adds 10 log n', () => {
  const total = totalDbmv(Array.from({ length: 79 }, () => 40));
  expect(total.ok && total.value - 40).toBeCloseTo(worked.equal79Db, 2);
  const one = totalDbmv([40]);
  expect(one.ok && one.value).toBeCloseTo(40, 12);
});
// By hand: 40 dBmV and a tenth of its power, 30 dBmV, are 1.1 times its power: 10 log 1.1 = 0.4139 dB more.
it('of unlike levels adds powers', () => {
  const total = totalDbmv([40, 30]);
  expect(total.ok && total.value).toBeCloseTo(40.4139, 4);
});
it('refuses no signal, and is finite or refused otherwise', () => {
  expect(totalDbmv([])).toMatchObject({ ok: false, where: '0 signals' });
  fc.assert(
    fc.property(fc.array(anyNumber, { maxLength: 5 }), (levels) => {
      const total = totalDbmv(levels);
      return !total.ok || Number.isFinite(total.value);
    }),
  );
});
