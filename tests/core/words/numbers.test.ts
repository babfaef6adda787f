import fc from 'fast-check';
import { expect, it } from 'vitest';
import * as core from '../../../core/words/numbers.ts';
import * as page from '../../../renderer/format.ts';

it('never writes a hyphen for a minus, nor a sign before nought', () => {
  fc.assert(
    fc.property(fc.double({ min: -200, max: 200, noNaN: true }), (value) => {
      const words = [
        core.oneDecimal(value),
        core.signedDecimal(value),
        core.plugIn(value),
        core.signedDb(value),
      ];
      for (const text of words) expect(text).not.toContain('-');
      expect(core.oneDecimal(value)).not.toBe('\u22120.0');
      expect(Number(core.signedDecimal(value).replace('\u2212', '-'))).toBeCloseTo(value, 0);
    }),
  );
});

// 0 dBmV at 75 ohm is 60 dBµV, and 10 lg(1000 * 0.001² / 75) = -48.75 dBm.
it('writes a level in each unit', () => {
  expect(core.bareLevel(0, 'dBmV')).toBe('0.0');
  expect(core.level(0, 'dBuV')).toBe('60.0\u00A0dB\u00B5V');
  expect(core.bareLevel(0, 'dBm75')).toBe('\u221248.8');
  // 10 lg(1000 * 0.001² / 50) = -46.99 dBm.
  expect(core.level(0, 'dBm50')).toBe('\u221247.0\u00A0dBm/50');
  expect(core.bareLevel(0, 'mV')).toBe('1.00');
});

it('is what the page writes, but for the sign of decimals', () => {
  for (const value of [-2.06, 0, 0.04, 46])
    expect(page.signedDb(value).replace(',', '.')).toBe(core.signedDb(value));
  expect(page.level(43.94, 'dBmV').replace(',', '.')).toBe(core.level(43.94, 'dBmV'));
});
