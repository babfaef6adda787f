import { chanceOfT } from '../trend/student-t.ts';
import { tQuantile } from '../trend/t-quantile.ts';
import type { FigureLimits, Followed } from './figures.ts';
import { type Leaving, leaving, type UncertainLine } from './leaving.ts';
import { fromRatedC, type NormalBasis, type NormalRow } from './normalize.ts';
import { leastSquares } from './regression.ts';

/** Readings come in tenths: what is left beside a line is taken to be no less than that rounding. */
const LEAST_SIGMA_DB = 0.1 / Math.sqrt(12);

/**
 * A drift is called so where standing still would look like it in fewer than one of a hundred stations, for the three figures
 * together, and where it is at least a tenth of a dB a year. Common practice, no published source.
 */
export const SURE_BELOW = 0.01 / 3;
export const LEAST_PER_YEAR_DB = 0.1;

/** Three sweeps are the fewest that leave anything to tell how uncertain a line is. */
export const TREND_FROM = 3;

export type DriftTrend = Readonly<{
  /** What is drawn: the figure as if read at 20 degrees C, by place in the stretch. */
  values: readonly Readonly<{ place: number; valueDb: number }>[];
  perYearDb: number;
  /** Standard error of that. */
  errorPerYearDb: number;
  freedom: number;
  /** The slope lies within this 95 of 100 times, dB a year. */
  fromPerYearDb: number;
  toPerYearDb: number;
  /** How often a station that stands still would show such a slope, either way. */
  chance: number;
  isSure: boolean;
  /** From a regression: what a degree C does, dB; else null. */
  perDegreeDb: number | null;
  line: UncertainLine;
  /** Years from the newest sweep. */
  leaves: Leaving;
}>;

/** No year, no dB and no temperature of a station is larger; squares of what is would overflow. */
const MOST = 1e6;
const isSane = (value: number): boolean => Math.abs(value) <= MOST;

/**
 * Least-squares trend of one figure over the years, at one temperature.
 * @param rows    of one stretch, in the order of time, dB and years
 * @param basis   with `regression`, temperature is a second regressor of the same fit
 * @param limits  where the figure has to stay, dB
 * @returns  slope in dB a year with its standard error, and when it leaves its limits; null below three sweeps, or where they
 *           were all read at one moment, or temperature and time can't be told apart
 * @throws   RangeError when a value is none
 * @source   ordinary least squares and Student's t for its slope: N. R. Draper, H. Smith, "Applied Regression Analysis" (1998),
 *           1.4 and 5.1; rounding to q adds q^2/12 to a variance (B. Widrow, IRE Transactions on Circuit Theory 3 (1956), 266-276)
 */
export function driftTrend(
  rows: readonly NormalRow[],
  basis: NormalBasis,
  limits: FigureLimits,
): DriftTrend | null {
  if (rows.some(({ years, valueDb, ambientC }) => ![years, valueDb, ambientC ?? 0].every(isSane)))
    throw new RangeError('a figure of a sweep is no number');
  if (rows.length < TREND_FROM) return null;
  const byTemperature = basis === 'regression';
  const fit = leastSquares(
    [
      rows.map(() => 1),
      rows.map(({ years }) => years),
      ...(byTemperature ? [rows.map(({ ambientC }) => fromRatedC(ambientC))] : []),
    ],
    rows.map(({ valueDb }) => valueDb),
  );
  if (fit === null || fit.sigma === null) return null;
  const [valueDb = 0, perYearDb = 0, perDegree = 0] = fit.coefficients;
  const variance = Math.max(fit.sigma, LEAST_SIGMA_DB) ** 2;
  const of = (i: number, j: number) => variance * (fit.inverse[i]?.[j] ?? 0);
  const errorPerYearDb = Math.sqrt(of(1, 1));
  const chance = chanceOfT(perYearDb / errorPerYearDb, fit.freedom);
  const factor = tQuantile(0.05, fit.freedom);
  const line: UncertainLine = {
    valueDb,
    perYearDb,
    valueVariance: of(0, 0),
    slopeVariance: of(1, 1),
    covariance: of(0, 1),
    factor,
  };
  return {
    values: rows.map((row) => ({
      place: row.place,
      valueDb: row.valueDb - (byTemperature ? perDegree * fromRatedC(row.ambientC) : 0),
    })),
    perYearDb,
    errorPerYearDb,
    freedom: fit.freedom,
    fromPerYearDb: perYearDb - factor * errorPerYearDb,
    toPerYearDb: perYearDb + factor * errorPerYearDb,
    chance,
    isSure: chance < SURE_BELOW && Math.abs(perYearDb) >= LEAST_PER_YEAR_DB,
    perDegreeDb: byTemperature ? perDegree : null,
    line,
    leaves: leaving(line, limits),
  };
}

/**
 * How fast a figure may be getting worse, as far as its trend can tell: a level and a tilt are worse wherever they go, flatness only
 * where it grows.
 * @returns  dB a year, 0 or more: the farther end of what holds the slope 95 of 100 times
 * @source   common practice, no published source
 */
export function worseningPerYearDb(
  of: Followed,
  { fromPerYearDb, toPerYearDb }: Pick<DriftTrend, 'fromPerYearDb' | 'toPerYearDb'>,
): number {
  return of === 'flatness'
    ? Math.max(0, toPerYearDb)
    : Math.max(Math.abs(fromPerYearDb), Math.abs(toPerYearDb));
}

/**
 * Whether a figure drifts: it surely moves, and not for the better.
 * @returns  false as well where nothing is sure
 * @source   common practice, no published source
 */
export const drifts = (
  of: Followed,
  { isSure, perYearDb }: Pick<DriftTrend, 'isSure' | 'perYearDb'>,
): boolean => isSure && (of !== 'flatness' || perYearDb > 0);
