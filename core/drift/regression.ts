/** What a least-squares fit came to. */
export type Regression = Readonly<{
  /** One for each column, in their order. */
  coefficients: readonly number[];
  /** Inverse of the normal matrix: times the variance it is the covariance of the coefficients. */
  inverse: readonly (readonly number[])[];
  /** Standard deviation of what is left, in the unit of the values; null where as many columns as rows leave nothing. */
  sigma: number | null;
  freedom: number;
}>;

const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, i) => sum + value * (b[i] ?? 0), 0);

/** A column that the others explain to this part of its length adds nothing but rounding. */
const SAME_COLUMN = 1e-10;

/**
 * Ordinary least squares over any columns, by Gram and Schmidt with each column made perpendicular twice, which keeps the
 * digits that the normal equations would lose.
 * @param columns  as many values each as there are rows; a constant is a column of ones
 * @param values   finite, one a row
 * @returns  coefficients with the inverse of the normal matrix; null where there are fewer rows than columns, or one
 *           column follows from the others
 * @throws   RangeError when a column is of another length
 * @source   ordinary least squares; A. Bjorck, "Numerical Methods for Least Squares Problems" (1996), 2.4.5: twice is enough
 */
export function leastSquares(
  columns: readonly (readonly number[])[],
  values: readonly number[],
): Regression | null {
  const n = values.length;
  const k = columns.length;
  for (const column of columns)
    if (column.length !== n) throw new RangeError(`a column of ${column.length} rows beside ${n} values`);
  if (n < k || k === 0) return null;
  const unit: number[][] = [];
  const upper: number[][] = columns.map(() => columns.map(() => 0));
  for (const [j, column] of columns.entries()) {
    const rest = [...column];
    const whole = Math.sqrt(dot(rest, rest));
    for (let again = 0; again < 2; again++)
      for (const [i, axis] of unit.entries()) {
        const share = dot(axis, rest);
        const row = upper[i];
        if (row !== undefined) row[j] = (row[j] ?? 0) + share;
        axis.forEach((value, r) => {
          rest[r] = (rest[r] ?? 0) - share * value;
        });
      }
    const left = Math.sqrt(dot(rest, rest));
    if (!(left > SAME_COLUMN * whole)) return null;
    const row = upper[j];
    if (row !== undefined) row[j] = left;
    unit.push(rest.map((value) => value / left));
  }
  const at = (i: number, j: number): number => upper[i]?.[j] ?? 0;
  const solved = (right: readonly number[]): number[] => {
    const x = Array.from({ length: k }, () => 0);
    for (let i = k - 1; i >= 0; i--) {
      let sum = right[i] ?? 0;
      for (let j = i + 1; j < k; j++) sum -= at(i, j) * (x[j] ?? 0);
      x[i] = sum / at(i, i);
    }
    return x;
  };
  const left = [...values];
  const right = unit.map((axis) => {
    const share = dot(axis, left);
    axis.forEach((value, r) => {
      left[r] = (left[r] ?? 0) - share * value;
    });
    return share;
  });
  // The inverse of R, column by column; the inverse of the normal matrix is that times its transpose.
  const inverseOfUpper = columns.map((_, j) => solved(columns.map((_one, i) => (i === j ? 1 : 0))));
  const inverse = columns.map((_, i) =>
    columns.map((_one, j) => inverseOfUpper.reduce((sum, c) => sum + (c[i] ?? 0) * (c[j] ?? 0), 0)),
  );
  const freedom = n - k;
  return {
    coefficients: solved(right),
    inverse,
    sigma: freedom === 0 ? null : Math.sqrt(dot(left, left) / freedom),
    freedom,
  };
}
