/** Standard errors of a fitted line, dB: what chance scatter of the rows about it leaves open. */
export type FitErrors = Readonly<{
  /** Of the level at position 0 and at position 1. */
  lowDb: number;
  highDb: number;
  /** Of what is added from position 0 to position 1. */
  tiltDb: number;
  /** Standard deviation of the rows about the line, with n - 2 degrees of freedom. */
  scatterDb: number;
}>;

/**
 * What the scatter of the rows leaves uncertain of a least squares line.
 * @param position     no unit, as many as deviations
 * @param deviationDb  row less line, dB
 * @param leastDb      dB: never take less scatter than this; it stands alone where two rows leave none to see
 * @returns  standard errors in dB; null with fewer than two rows or only one position
 * @throws   RangeError when the two differ in length
 * @source   N. R. Draper, H. Smith, Applied Regression Analysis, 1.4; held against NIST StRD Norris in the tests
 */
export function fitErrors(
  position: ArrayLike<number>,
  deviationDb: ArrayLike<number>,
  leastDb = 0,
): FitErrors | null {
  const n = position.length;
  if (n !== deviationDb.length) throw new RangeError(`${n} positions, ${deviationDb.length} deviations`);
  let sumX = 0;
  for (let i = 0; i < n; i++) sumX += position[i] ?? 0;
  const meanX = sumX / n;
  let sxx = 0;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    const x = (position[i] ?? 0) - meanX;
    sxx += x * x;
    squares += (deviationDb[i] ?? 0) ** 2;
  }
  if (n < 2 || !(sxx > 0)) return null;
  const scatterDb = Math.max(leastDb, n > 2 ? Math.sqrt(squares / (n - 2)) : 0);
  const at = (x: number) => scatterDb * Math.sqrt(1 / n + (x - meanX) ** 2 / sxx);
  return { lowDb: at(0), highDb: at(1), tiltDb: scatterDb / Math.sqrt(sxx), scatterDb };
}
