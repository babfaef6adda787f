import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chanceWords, conformanceProbability, decide } from '../../../core/uncertainty/conformity.ts';

const both = { fromDb: -1, toDb: 1 };

describe('conformanceProbability', () => {
  // JCGM 106:2012, 7.3: with one limit P = Phi((limit - estimate) / u); Phi(1.645) = 0.95 is the usual guard band of 1.645 u.
  it('is 95 % a guard band of 1.645 u inside one limit, 5 % as far outside, and a half on it', () => {
    const upper = { fromDb: null, toDb: 2.5 };
    expect(conformanceProbability(2.5 - 1.644854 * 0.3, 0.3, upper)).toBeCloseTo(0.95, 6);
    expect(conformanceProbability(2.5 + 1.644854 * 0.3, 0.3, upper)).toBeCloseTo(0.05, 6);
    expect(conformanceProbability(2.5, 0.3, upper)).toBeCloseTo(0.5, 12);
    expect(conformanceProbability(-1, 0.3, { fromDb: -1, toDb: null })).toBeCloseTo(0.5, 12);
  });
  // JCGM 106:2012, 7.4: between two limits the difference of two such areas; by the table 2 * 0.84134 - 1 at one u.
  it('is the area between two limits', () => {
    expect(conformanceProbability(0, 1, both)).toBeCloseTo(0.68268, 4);
    expect(conformanceProbability(0, 0.5, both)).toBeCloseTo(0.9545, 4);
    expect(conformanceProbability(1, 100, both)).toBeLessThan(0.01);
  });
  it('is certain where nothing is uncertain, and takes exactly at the limit as inside', () => {
    expect(conformanceProbability(1, 0, both)).toBe(1);
    expect(conformanceProbability(1.001, 0, both)).toBe(0);
    expect(conformanceProbability(0.1 + 0.2, 0, { fromDb: null, toDb: 0.3 })).toBe(1);
  });
  it('is never outside 0 to 1, and throws for what is no number', () => {
    const db = fc.double({ min: -300, max: 300, noNaN: true });
    fc.assert(
      fc.property(db, fc.double({ min: 0, max: 50, noNaN: true }), db, db, (read, u, a, b) => {
        const p = conformanceProbability(read, u, { fromDb: Math.min(a, b), toDb: Math.max(a, b) });
        expect(p >= 0 && p <= 1).toBe(true);
      }),
    );
    expect(() => conformanceProbability(Number.NaN, 1, both)).toThrow(RangeError);
    expect(() => conformanceProbability(1, -1, both)).toThrow(RangeError);
  });
});

it('decides with 95 %', () => {
  expect([0, 0.05, 0.051, 0.949, 0.95, 1].map(decide)).toEqual([
    ...(['fail', 'fail', 'undecided', 'undecided', 'pass', 'pass'] as const),
  ]);
});
it('says a chance as people do', () => {
  expect([0.5, 0.973, 0.989, 0.9999, 0.004, 0.0001].map(chanceWords)).toEqual([
    ...['50 in 100', '97 in 100', '989 in 1000', 'more than 999 in 1000', '4 in 1000', 'less than 1 in 1000'],
  ]);
});
