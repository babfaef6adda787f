import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leastSquares } from '../../../core/drift/regression.ts';
import longley from '../../data/published/nist-strd-longley.json' with { type: 'json' };
import norris from '../../data/published/nist-strd-norris.json' with { type: 'json' };

const column = (place: number) => longley.rows.map((row) => row[place] ?? 0);

// NIST Statistical Reference Datasets, "Longley": six predictors that nearly follow from one another.
describe('NIST Longley', () => {
  const fit = leastSquares([column(0).map(() => 1), ...[1, 2, 3, 4, 5, 6].map(column)], column(0));
  if (fit === null || fit.sigma === null) throw new Error('no fit');
  it('gives every certified coefficient to 8 digits', () => {
    longley.coefficients.forEach((certified, i) => {
      expect(Math.abs((fit.coefficients[i] ?? 0) / certified - 1)).toBeLessThan(1e-8);
    });
  });
  it('gives every certified standard deviation to 8 digits', () => {
    const sigma = fit.sigma ?? 0;
    expect(fit.freedom).toBe(9);
    expect(Math.abs(sigma / longley.residualStandardDeviation - 1)).toBeLessThan(1e-8);
    longley.standardDeviations.forEach((certified, i) => {
      const error = sigma * Math.sqrt(fit.inverse[i]?.[i] ?? 0);
      expect(Math.abs(error / certified - 1)).toBeLessThan(1e-8);
    });
  });
});

// NIST Statistical Reference Datasets, "Norris".
it('gives the certified line of NIST Norris to 11 digits', () => {
  const fit = leastSquares([norris.x.map(() => 1), norris.x], norris.y);
  expect(Math.abs((fit?.coefficients[0] ?? 0) / norris.intercept - 1)).toBeLessThan(1e-11);
  expect(Math.abs((fit?.coefficients[1] ?? 0) / norris.slope - 1)).toBeLessThan(1e-11);
  expect(Math.abs((fit?.sigma ?? 0) / norris.residualStandardDeviation - 1)).toBeLessThan(1e-11);
});

it('has no answer where one column follows from another, or rows are missing', () => {
  expect(
    leastSquares(
      [
        [1, 1, 1],
        [2, 2, 2],
      ],
      [1, 2, 3],
    ),
  ).toBeNull();
  expect(leastSquares([[1], [0]], [1])).toBeNull();
  expect(leastSquares([], [])).toBeNull();
});

it('says that nothing is left to tell its own uncertainty, where it is so', () => {
  expect(
    leastSquares(
      [
        [1, 1],
        [0, 1],
      ],
      [3, 5],
    ),
  ).toMatchObject({ sigma: null, freedom: 0 });
});

it('refuses a column of another length', () => {
  expect(() => leastSquares([[1, 1]], [1])).toThrow('a column of 2 rows beside 1 values');
});

it('finds any plane again that the values were made of', () => {
  const number = fc.double({ min: -5, max: 5, noNaN: true });
  fc.assert(
    fc.property(number, number, number, (a, b, c) => {
      const u = [0, 1, 2, 3, 4, 5];
      const v = [3, -1, 4, -1, 5, -9];
      const fit = leastSquares(
        [u.map(() => 1), u, v],
        u.map((x, i) => a + b * x + c * (v[i] ?? 0)),
      );
      [a, b, c].forEach((made, i) => {
        expect(fit?.coefficients[i]).toBeCloseTo(made, 9);
      });
    }),
  );
});
