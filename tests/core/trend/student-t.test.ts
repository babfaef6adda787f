import { describe, expect, it } from 'vitest';
import { chanceOfT } from '../../../core/trend/student-t.ts';

describe("Student's t", () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, upper critical values of Student's t, one-sided 0.025,
  // 0.005 and 0.001, as scipy.stats.t.sf of SciPy gives them too; both sides are twice that.
  it.each([
    [1, 12.706, 0.05],
    [2, 4.303, 0.05],
    [5, 2.571, 0.05],
    [10, 2.228, 0.05],
    [30, 2.042, 0.05],
    [100, 1.984, 0.05],
    [5, 4.032, 0.01],
    [10, 3.169, 0.01],
    [10, 4.144, 0.002],
    [30, 3.385, 0.002],
  ])('with %d degrees of freedom lies beyond %d with a chance of %d', (freedom, t, chance) => {
    expect(chanceOfT(t, freedom) / chance).toBeCloseTo(1, 2.5);
    expect(chanceOfT(-t, freedom)).toBe(chanceOfT(t, freedom));
  });

  // With one and two degrees of freedom it is known in closed form: 1 - 2 atan(t)/pi, and 1 - t/sqrt(2 + t^2).
  it.each([0.1, 1, 3, 30, 3000])('agrees with the closed forms at %d', (t) => {
    expect(chanceOfT(t, 1) / ((2 / Math.PI) * Math.atan(1 / t))).toBeCloseTo(1, 10);
    const two = 2 / (Math.sqrt(2 + t * t) * (Math.sqrt(2 + t * t) + t));
    expect(chanceOfT(t, 2) / two).toBeCloseTo(1, 10);
  });

  it('is 1 at 0, 0 at infinity, and throws on nothing', () => {
    expect(chanceOfT(0, 7)).toBe(1);
    expect(chanceOfT(Number.POSITIVE_INFINITY, 7)).toBe(0);
    for (const [t, freedom] of [
      [Number.NaN, 7],
      [1, 0],
      [1, Number.NaN],
    ] as const)
      expect(() => chanceOfT(t, freedom)).toThrow(RangeError);
  });
});
