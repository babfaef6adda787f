import { describe, expect, it } from 'vitest';
import { slopeOf } from '../../../core/trend/slope.ts';
import norris from '../../data/published/nist-strd-norris.json' with { type: 'json' };

describe('the slope of some readings', () => {
  // NIST Statistical Reference Datasets, linear least squares, "Norris": certified slope 1.00211681802045 with a standard
  // error of 0.429796848199937E-03, 34 degrees of freedom.
  it('agrees with the certified values of NIST Norris', () => {
    const readings = norris.x.map((atS, i) => ({ atS, levelDbmv: norris.y[i] ?? 0 }));
    const slope = slopeOf(readings, 0);
    if (slope === null) throw new Error('no slope');
    expect(slope.dbPerS / 1.00211681802045).toBeCloseTo(1, 10);
    expect(slope.errorDbPerS / 0.429796848199937e-3).toBeCloseTo(1, 8);
    expect(slope.freedom).toBe(34);
  });

  it('is no surer than the rounding of the readings', () => {
    const readings = [0, 1, 2, 3].map((atS) => ({ atS, levelDbmv: 30 + 0.1 * atS }));
    // By hand: variance 0.1^2 / 12 over a sum of squares of 5.
    expect(slopeOf(readings, 0.1)?.errorDbPerS).toBeCloseTo(Math.sqrt(0.01 / 12 / 5), 12);
  });

  it('is none for two readings, or at one time', () => {
    expect(
      slopeOf(
        [
          { atS: 0, levelDbmv: 1 },
          { atS: 1, levelDbmv: 2 },
        ],
        0.1,
      ),
    ).toBeNull();
    expect(
      slopeOf(
        [0, 0, 0].map((atS) => ({ atS, levelDbmv: 1 })),
        0.1,
      ),
    ).toBeNull();
  });
});
