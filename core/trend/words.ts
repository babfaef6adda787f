import type { Trend } from './direction.ts';

/** What a meter can tell apart, dB. */
const TENTH_DB = 0.1;

/** Tenths of a dB; a change that is smaller is only said to be that. */
const moved = (db: number): string =>
  Math.abs(db) < 0.95 * TENTH_DB ? `less than ${TENTH_DB}` : Math.abs(db).toFixed(1);

/** Nothing is steadier than a meter can tell. */
const within = (db: number): string => Math.max(TENTH_DB, Math.abs(db)).toFixed(1);

const seconds = (overS: number): string =>
  overS < 9.5 ? overS.toFixed(overS < 1.95 ? 1 : 0) : overS.toFixed(0);

/**
 * Which way a level is going, as it is said beside a control.
 * @param trend  dB over seconds, or null while there are too few readings
 * @returns  "falling 0.2 dB in 8 s", "rising less than 0.1 dB in 24 s", "steady within 0.3 dB for 12 s", or "too few readings yet"
 * @source   common practice, no published source
 */
export function trendWords(trend: Trend | null): string {
  if (trend === null) return 'too few readings yet';
  const { direction, changeDb, overS, lessThanDb } = trend;
  if (direction === 'steady')
    return `steady within ${within(lessThanDb ?? changeDb)} dB for ${seconds(overS)} s`;
  return `${direction} ${moved(changeDb)} dB in ${seconds(overS)} s`;
}
