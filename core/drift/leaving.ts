import type { FigureLimits } from './figures.ts';

/** A straight line over years with what it is uncertain by: value + slope u, and the covariance of the two. */
export type UncertainLine = Readonly<{
  /** At u = 0, dB. */
  valueDb: number;
  perYearDb: number;
  /** Variances and covariance of the two, dB and years. */
  valueVariance: number;
  slopeVariance: number;
  covariance: number;
  /** So many standard errors either way hold the line 95 of 100 times. */
  factor: number;
}>;

/** Farther ahead than this no date is told. */
export const HORIZON_YEARS = 10;
const STEP_YEARS = 1 / 24;

/** When a line leaves its limits, in years from u = 0; each null where that is not within the horizon. */
export type Leaving = Readonly<{
  /** Not before this, 95 of 100 times; 0 where it may be out already. */
  earliestYears: number | null;
  /** Where the line itself crosses; 0 where it is out. */
  expectedYears: number | null;
  /** By then surely out; null where the trend is not certain enough to say. */
  latestYears: number | null;
}>;

/**
 * The line's lower or upper edge at a time.
 * @param u     years
 * @param side  1 above, -1 below, 0 the line itself
 * @returns  dB
 * @source   confidence band of a regression line: N. R. Draper, H. Smith, "Applied Regression Analysis" (1998), 3.1
 */
export function edgeDb(line: UncertainLine, u: number, side: -1 | 0 | 1): number {
  const variance = line.valueVariance + 2 * u * line.covariance + u * u * line.slopeVariance;
  return line.valueDb + line.perYearDb * u + side * line.factor * Math.sqrt(Math.max(0, variance));
}

/** The first time at which it holds, to a day or so; null where it never does within the horizon. */
function firstTime(holds: (u: number) => boolean): number | null {
  if (holds(0)) return 0;
  for (let u = STEP_YEARS; u <= HORIZON_YEARS + 1e-9; u += STEP_YEARS) {
    if (!holds(u)) continue;
    let from = u - STEP_YEARS;
    let to = u;
    for (let halving = 0; halving < 12; halving++) {
      const middle = (from + to) / 2;
      if (holds(middle)) to = middle;
      else from = middle;
    }
    return to;
  }
  return null;
}

/**
 * When a figure leaves its limits, as an interval: where the confidence band of its line first touches a limit, and where it has
 * left the limits whole.
 * @param line    dB over years from now
 * @param limits  dB
 * @returns  years from now, each null beyond the horizon or where it can't be told
 * @source   inverse estimation by the confidence band (E. C. Fieller, Journal of the Royal Statistical Society B 16 (1954),
 *           175-185): found by walking the band, since either end may not exist
 */
export function leaving(line: UncertainLine, { fromDb, toDb }: FigureLimits): Leaving {
  const over = (u: number, side: -1 | 0 | 1) => toDb !== null && edgeDb(line, u, side) > toDb;
  const under = (u: number, side: -1 | 0 | 1) => fromDb !== null && edgeDb(line, u, side) < fromDb;
  return {
    earliestYears: firstTime((u) => over(u, 1) || under(u, -1)),
    expectedYears: firstTime((u) => over(u, 0) || under(u, 0)),
    latestYears: firstTime((u) => over(u, -1) || under(u, 1)),
  };
}
