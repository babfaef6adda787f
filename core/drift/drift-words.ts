import { worseningPerYearDb } from './drift-trend.ts';
import type { Leaving } from './leaving.ts';
import { HORIZON_YEARS } from './leaving.ts';
import { yearsLater } from './normalize.ts';
import type { StationDrift } from './station-drift.ts';

const tenths = (db: number): string => Math.abs(db).toFixed(1);

/**
 * How a station goes, in a few words for a table.
 * @returns  "level falls 0.6 dB a year", "steady within 0.3 dB a year", "not sure yet, ±2.1 dB a year", "too few sweeps"
 * @source   common practice, no published source
 */
export function driftWords(drift: Pick<StationDrift, 'state' | 'says' | 'figures'>): string {
  const trend = drift.figures.find(({ of }) => of === drift.says)?.trend ?? null;
  if (trend === null || drift.says === null) return 'too few sweeps';
  const reachDb = worseningPerYearDb(drift.says, trend);
  switch (drift.state) {
    case 'drifting': {
      const verb = drift.says === 'flatness' ? 'grows' : trend.perYearDb > 0 ? 'rises' : 'falls';
      return `${drift.says} ${verb} ${tenths(trend.perYearDb)} dB a year`;
    }
    case 'steady':
      return `steady within ${tenths(Math.ceil(reachDb * 10) / 10)} dB a year`;
    case 'unsure':
      return `not sure yet, up to ${tenths(Math.ceil(reachDb * 10) / 10)} dB a year`;
    case 'too-few':
      return 'too few sweeps';
  }
}

/** When a figure leaves its limits, as moments; the words around them are the screen's. */
export type LeavingSaid =
  | Readonly<{ at: 'out' }>
  | Readonly<{ at: 'between'; earliestMs: number; latestMs: number }>
  | Readonly<{ at: 'not-before'; earliestMs: number }>
  | Readonly<{ at: 'any-day' }>
  | Readonly<{ at: 'not-within'; years: number }>;

/**
 * What may honestly be said of when a figure leaves its limits.
 * @param leaves  years from the newest sweep
 * @param fromMs  that sweep's time, milliseconds
 * @returns  `out` where it surely is; `between` two moments; `not-before` one where the trend is too uncertain for a last one;
 *           `any-day` where it may be out already; `not-within` so many years
 * @source   see `leaving`
 */
export function leavingSaid({ earliestYears, latestYears }: Leaving, fromMs: number): LeavingSaid {
  if (latestYears === 0) return { at: 'out' };
  if (earliestYears === null) return { at: 'not-within', years: HORIZON_YEARS };
  const earliestMs = yearsLater(fromMs, earliestYears);
  if (latestYears !== null) return { at: 'between', earliestMs, latestMs: yearsLater(fromMs, latestYears) };
  return earliestYears === 0 ? { at: 'any-day' } : { at: 'not-before', earliestMs };
}
