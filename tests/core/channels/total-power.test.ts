import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { LineUpEntry } from '../../../core/channels/line-up.ts';
import { totalPowerDbmv } from '../../../core/channels/total-power.ts';
import worked from '../../data/published/levels-worked.json' with { type: 'json' };
import { anyNumber } from '../../support/any-number.ts';

const analog = (frequencyMhz: number): LineUpEntry => ({
  channelLabel: String(frequencyMhz),
  frequencyMhz,
  kind: 'analog',
  widthMhz: 6,
  offsetDb: 0,
});

it('adds 79 equal carriers to 18.98 dB more', () => {
  const total = totalPowerDbmv(
    Array.from({ length: 79 }, (_, i) => analog(55.25 + 6 * i)),
    () => 40,
  );
  expect(total.ok && total.value - 40).toBeCloseTo(worked.equalCarriers79Db, 2);
});

// One 192 MHz OFDM signal 6 dB down has as much as 32 QAM channels 6 dB down: 10 log(192/6) = 10 log 32.
it('counts OFDM over its whole width', () => {
  const ofdm: LineUpEntry = {
    channelLabel: 'OFDM',
    frequencyMhz: 762,
    kind: 'ofdm',
    widthMhz: 192,
    offsetDb: -6,
  };
  const qam = Array.from(
    { length: 32 },
    (_, i): LineUpEntry => ({
      channelLabel: String(i),
      frequencyMhz: 669 + 6 * i,
      kind: 'qam',
      qamOrder: 256,
      widthMhz: 6,
      offsetDb: -6,
    }),
  );
  const one = totalPowerDbmv([ofdm], () => 46);
  const many = totalPowerDbmv(qam, () => 46);
  expect(one.ok && many.ok && one.value - many.value).toBeCloseTo(0, 9);
  expect(one.ok && one.value).toBeCloseTo(46 - 6 + 15.05, 2);
});

it('refuses an empty line-up and a design line that is none, and is finite otherwise', () => {
  expect(totalPowerDbmv([], () => 40)).toMatchObject({ ok: false, code: 'empty-line-up' });
  expect(totalPowerDbmv([analog(55.25)], () => Number.NaN)).toMatchObject({
    ok: false,
    where: expect.stringContaining('55.25'),
  });
  fc.assert(
    fc.property(anyNumber, anyNumber, (offsetDb, level) => {
      const total = totalPowerDbmv([{ ...analog(55.25), offsetDb }], () => level);
      return !total.ok || Number.isFinite(total.value);
    }),
  );
});
