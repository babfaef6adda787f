import { describe, expect, it } from 'vitest';
import { chanceOfT } from '../../../core/trend/student-t.ts';
import { tQuantile } from '../../../core/trend/t-quantile.ts';

// Student's t, two-sided 5 %: every printed table (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2).
describe('the quantile of t', () => {
  it.each([
    [1, 12.706],
    [2, 4.303],
    [3, 3.182],
    [8, 2.306],
    [30, 2.042],
    [100, 1.984],
  ])('for %i degrees of freedom is %f', (freedom, printed) => {
    expect(tQuantile(0.05, freedom)).toBeCloseTo(printed, 3);
  });
  it('is the inverse of the chance', () => {
    for (const chance of [0.001, 0.2, 0.9])
      expect(chanceOfT(tQuantile(chance, 4), 4)).toBeCloseTo(chance, 12);
  });
  it('refuses a chance that is none', () => {
    expect(() => tQuantile(0, 4)).toThrow(RangeError);
    expect(() => tQuantile(1, 4)).toThrow(RangeError);
    expect(() => tQuantile(Number.NaN, 4)).toThrow(RangeError);
  });
});
