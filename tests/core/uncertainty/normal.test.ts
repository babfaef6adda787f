import { describe, expect, it } from 'vitest';
import { normalBelow } from '../../../core/uncertainty/normal.ts';

// NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1, area from 0 to x under the normal curve, plus a half.
const published = [
  [0, 0.5],
  [0.5, 0.69146],
  [1, 0.84134],
  [1.65, 0.95053],
  [1.96, 0.975],
  [2.58, 0.99506],
  [3, 0.99865],
] as const;

describe('normalBelow', () => {
  it.each(published)('is the table\u2019s area up to %d', (deviations, share) => {
    expect(Math.abs(normalBelow(deviations) - share)).toBeLessThan(5.1e-6);
    expect(Math.abs(normalBelow(-deviations) - (1 - share))).toBeLessThan(5.1e-6);
  });
  // Tails by erfc of the C library: math.erfc(6 / sqrt 2) / 2 and math.erfc(10 / sqrt 2) / 2 in Python 3.
  it('keeps its digits far out', () => {
    expect(normalBelow(-6) / 9.865876450377012e-10).toBeCloseTo(1, 5);
    expect(normalBelow(-10) / 7.619853024160593e-24).toBeCloseTo(1, 9);
    expect(normalBelow(-100)).toBe(0);
    expect(normalBelow(100)).toBe(1);
    expect(normalBelow(-6.0001) / normalBelow(-5.9999)).toBeCloseTo(1, 2);
  });
  it('rises, stays between 0 and 1, and throws for NaN', () => {
    let before = 0;
    for (let x = -45; x <= 45; x += 0.01) {
      const share = normalBelow(x);
      expect(share >= before - 1e-15 && share <= 1).toBe(true);
      before = share;
    }
    expect(() => normalBelow(Number.NaN)).toThrow(RangeError);
  });
});
