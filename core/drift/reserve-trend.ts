import { RESERVE_WITHIN_DB } from '../gain-control/reserve-verdict.ts';
import { type DriftTrend, driftTrend } from './drift-trend.ts';
import type { FigureLimits } from './figures.ts';
import { yearsBetween } from './normalize.ts';

/** The reserve that one set-up left. */
export type ReservePoint = Readonly<{
  visitId: string;
  /** Milliseconds since 1970 UTC. */
  atMs: number;
  /** dB below the maximum gain. */
  leftDb: number;
  /** What the rule asked for on that day, its compensation for the temperature included, dB. */
  askedDb: number;
}>;

export type ReserveTrend = Readonly<{
  /** Left less asked for, dB: as if every set-up had been made at one temperature. In the order of time. */
  values: readonly Readonly<{ visitId: string; atMs: number; valueDb: number }>[];
  trend: DriftTrend | null;
  limits: FigureLimits;
}>;

/**
 * How the reserve that a station's set-ups left went over the years, against what the rule asked for on each day. Every set-up sets it
 * anew, so that its trend says how it was left and is never called a drift.
 * @param points  in any order, each finite
 * @returns  dB over what was asked for, with the least-squares line (dB a year) from three set-ups on, and the limits of the reserve's
 *           verdict
 * @throws   RangeError when a value is none
 * @source   the rule and its limits: see `reserveVerdict`; the line: see `driftTrend`
 */
export function reserveTrend(points: readonly ReservePoint[]): ReserveTrend {
  const values = points
    .map(({ visitId, atMs, leftDb, askedDb }) => ({ visitId, atMs, valueDb: leftDb - askedDb }))
    .sort((a, b) => a.atMs - b.atMs);
  const newestMs = values.at(-1)?.atMs ?? 0;
  const limits = { fromDb: -RESERVE_WITHIN_DB, toDb: RESERVE_WITHIN_DB };
  const rows = values.map(({ atMs, valueDb }, place) => ({
    place,
    years: yearsBetween(newestMs, atMs),
    ambientC: null,
    rawDb: valueDb,
    valueDb,
  }));
  return { values, trend: driftTrend(rows, 'none', limits), limits };
}
