import type { Trend } from './direction.ts';

/** Tenths of a dB; a change too small for one decimal gets two. */
function decibels(db: number): string {
  const size = Math.abs(db);
  return size < 0.095 ? size.toFixed(2) : size.toFixed(1);
}

const seconds = (overS: number): string =>
  overS < 9.5 ? overS.toFixed(overS < 1.95 ? 1 : 0) : overS.toFixed(0);

/**
 * Which way a level is going, as it is said beside a control.
 * @param trend  dB over seconds, or null while there are too few readings
 * @returns  "falling 0.2 dB in 8 s", "steady within 0.3 dB for 12 s", or "too few readings yet"
 * @source   common practice, no published source
 */
export function trendWords(trend: Trend | null): string {
  if (trend === null) return 'too few readings yet';
  const { direction, changeDb, overS, lessThanDb } = trend;
  if (direction === 'steady')
    return `steady within ${decibels(lessThanDb ?? changeDb)} dB for ${seconds(overS)} s`;
  return `${direction} ${decibels(changeDb)} dB in ${seconds(overS)} s`;
}
