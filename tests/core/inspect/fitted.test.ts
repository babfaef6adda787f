import { describe, expect, it } from 'vitest';
import { explainedBy, explainedBySine, fitColumns } from '../../../core/inspect/fitted.ts';

const mhz = [1, 2, 3, 4, 5, 6, 7, 8];
const ones = Float64Array.from(mhz, () => 1);
const line = [ones, Float64Array.from(mhz)];

describe('a fit', () => {
  // By hand: levels 0 but 1 at one place; the mean of eight rows is 1/8, the squares left are 7/8.
  it('leaves what its columns do not explain', () => {
    const fitted = fitColumns(mhz, [0, 0, 0, 1, 0, 0, 0, 0], [ones]);
    expect(fitted.residualDb[3]).toBeCloseTo(7 / 8, 12);
    expect(fitted.residualDb[0]).toBeCloseTo(-1 / 8, 12);
    expect(fitted.freedom).toBe(7);
    expect(fitted.squaresDb2).toBeCloseTo(7 / 8 + 7 * 0.03 ** 2, 12);
  });

  it('leaves out a column that the others span', () => {
    expect(fitColumns(mhz, mhz, [...line, Float64Array.from(mhz, (f) => 3 - 2 * f)]).columns).toHaveLength(2);
  });

  it('says what one more column would explain, with its amplitude', () => {
    const levels = mhz.map((f) => 5 + 0.3 * f + (f >= 5 ? 2 : 0));
    const fitted = fitColumns(mhz, levels, line);
    const before = fitted.squaresDb2 - fitted.freedom * 0.03 ** 2;
    const { amplitudeDb, gainDb2 } = explainedBy(fitted, { at: 4, values: [1, 1, 1, 1] });
    expect(amplitudeDb).toBeCloseTo(2, 10);
    expect(gainDb2).toBeCloseTo(before, 10);
    expect(explainedBy(fitted, { at: 0, values: mhz })).toEqual({ gainDb2: 0, amplitudeDb: 0 });
  });

  it('says the same of a sine of any phase', () => {
    const levels = mhz.map((f) => 5 + 0.3 * f + 0.7 * Math.cos(2 * Math.PI * 0.3 * f + 1));
    const fitted = fitColumns(mhz, levels, line);
    expect(explainedBySine(fitted, 0.3).amplitudeDb).toBeCloseTo(0.7, 10);
    // At twice Nyquist's frequency every row sees the same phase: a constant, which the line already has.
    expect(explainedBySine(fitted, 1)).toEqual({ gainDb2: 0, amplitudeDb: 0 });
  });
});
