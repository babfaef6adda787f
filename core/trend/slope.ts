/** One reading of a level that is watched: seconds on any clock that never goes back, dBmV. */
export type WatchedLevel = Readonly<{ atS: number; levelDbmv: number }>;

/** A straight line through some readings, and how sure its slope is. */
export type Slope = Readonly<{
  dbPerS: number;
  /** Standard error of that, dB a second. */
  errorDbPerS: number;
  /** Degrees of freedom of that error. */
  freedom: number;
}>;

/**
 * Regression of level on time.
 * @param readings      seconds and dBmV, at least three at different times
 * @param resolutionDb  what the readings are rounded to, dB: they can't lie closer to a line than that allows
 * @returns  slope and its standard error in dB a second; null where the readings do not make a line
 * @source   ordinary least squares; rounding to q adds q^2/12 to a variance (B. Widrow, IRE Transactions on Circuit
 *           Theory 3 (1956), 266-276)
 */
export function slopeOf(readings: readonly WatchedLevel[], resolutionDb: number): Slope | null {
  const n = readings.length;
  if (n < 3) return null;
  let meanS = 0;
  let meanDbmv = 0;
  for (const { atS, levelDbmv } of readings) {
    meanS += atS / n;
    meanDbmv += levelDbmv / n;
  }
  let sxx = 0;
  let sxy = 0;
  let syy = 0;
  for (const { atS, levelDbmv } of readings) {
    const x = atS - meanS;
    const y = levelDbmv - meanDbmv;
    sxx += x * x;
    sxy += x * y;
    syy += y * y;
  }
  if (!(sxx > 0)) return null;
  const dbPerS = sxy / sxx;
  const freedom = n - 2;
  const variance = Math.max(Math.max(0, syy - dbPerS * sxy) / freedom, resolutionDb ** 2 / 12);
  const errorDbPerS = Math.sqrt(variance / sxx);
  return Number.isFinite(dbPerS) && Number.isFinite(errorDbPerS) ? { dbPerS, errorDbPerS, freedom } : null;
}
