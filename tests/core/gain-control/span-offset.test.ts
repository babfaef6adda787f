import { expect, it } from 'vitest';
import { spanOffsetDb } from '../../../core/gain-control/span-offset.ts';

// By hand from the contract's formula: 22 dB * 0.00198 * (40 - 15.6) = 1.062864 dB.
it('is the span times the coefficient times the degrees from 15.6 C', () => {
  expect(spanOffsetDb(22, 40)).toBeCloseTo(1.062864, 12);
  expect(spanOffsetDb(22, 15.6)).toBe(0);
  expect(spanOffsetDb(22, -30)).toBeCloseTo(-1.986336, 12);
  expect(spanOffsetDb(0, 40)).toBe(0);
});

// "Automatic Gain Control Part 01", Transmit Magazine, 11 Apr 2016: 0.1 % a degree F; 90 dB of cable and a fall of
// 100 F make 9 dB less. With that source's own coefficient, 0.001 a degree F = 0.0018 a degree C.
it('agrees with the published worked example', () => {
  const fallC = 100 / 1.8;
  expect(spanOffsetDb(90, 15.6 - fallC, 0.0018)).toBeCloseTo(-9, 12);
});

it('throws on what is no number', () => {
  expect(() => spanOffsetDb(22, Number.NaN)).toThrow(RangeError);
});
