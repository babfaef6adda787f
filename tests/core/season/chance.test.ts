import { describe, expect, it } from 'vitest';
import { chanceFrom } from '../../../core/season/chance.ts';

const draws = (seed: number, count: number, what: 'even' | 'normal') => {
  const chance = chanceFrom(seed);
  return Array.from({ length: count }, () => chance[what]());
};
const mean = (values: number[]) => values.reduce((sum, x) => sum + x, 0) / values.length;

describe('chance from a seed', () => {
  it('is the same for the same seed and another for its neighbour', () => {
    expect(draws(7, 20, 'normal')).toEqual(draws(7, 20, 'normal'));
    expect(draws(7, 20, 'even').filter((x, i) => x === draws(8, 20, 'even')[i])).toEqual([]);
  });

  // A standard normal distribution: mean 0, variance 1, kurtosis 3, 4.55 % beyond two standard deviations (any table).
  it('is normal', () => {
    const values = draws(1, 200_000, 'normal');
    expect(mean(values)).toBeCloseTo(0, 1.9);
    expect(mean(values.map((x) => x * x))).toBeCloseTo(1, 1.9);
    expect(mean(values.map((x) => x ** 4))).toBeCloseTo(3, 0.9);
    expect(values.filter((x) => Math.abs(x) > 2).length / values.length).toBeCloseTo(0.0455, 2.5);
  });

  it('is even', () => {
    const values = draws(2, 100_000, 'even');
    expect(mean(values)).toBeCloseTo(0.5, 2);
    for (let tenth = 0; tenth < 10; tenth++) {
      const share = values.filter((x) => Math.floor(x * 10) === tenth).length / values.length;
      expect(Math.abs(share - 0.1)).toBeLessThan(0.005);
    }
    expect(values.every((x) => x >= 0 && x < 1)).toBe(true);
  });

  it.each([-1, 0.5, Number.NaN, 4294967296])('throws on the seed %d', (seed) => {
    expect(() => chanceFrom(seed)).toThrow(RangeError);
  });
});
