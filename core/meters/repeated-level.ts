/** Two readings of one carrier that differ by no more are the same reading. */
export const SAME_READING_DB = 1;
/** A step from the channel before that is asked for once more; analog and QAM lie 6 dB apart. */
export const FAR_STEP_DB = 8;

/**
 * The level that several readings of one carrier mean together.
 * @param readingsDbmv  in dBmV, one or more; null where the meter had no level
 * @returns  their mean in dB, or null when no more than half of them are levels
 * @throws   RangeError for no reading at all
 * @source   common practice, no published source: within a few tenths of a dB the mean of levels and of powers agree
 */
export function meanLevel(readingsDbmv: readonly (number | null)[]): number | null {
  if (readingsDbmv.length === 0) throw new RangeError('no readings to average');
  const levels = readingsDbmv.filter((reading) => reading !== null).filter(Number.isFinite);
  if (levels.length * 2 <= readingsDbmv.length) return null;
  return levels.reduce((mean, levelDbmv) => mean + levelDbmv / levels.length, 0);
}

/**
 * Whether a reading is worth another question: the first of a sweep, no level where one was planned, or a far step from
 * the channel before.
 * @param readingDbmv  in dBmV, null where the meter had no level
 * @param beforeDbmv   the channel before; null where it had none; undefined where there is no channel before
 * @source  common practice, no published source
 */
export function isDoubtful(readingDbmv: number | null, beforeDbmv: number | null | undefined): boolean {
  if (readingDbmv === null || beforeDbmv === undefined) return true;
  return beforeDbmv !== null && Math.abs(readingDbmv - beforeDbmv) > FAR_STEP_DB;
}

/**
 * Whether two readings of one carrier say the same.
 * @param firstDbmv, secondDbmv  in dBmV, null where the meter had no level
 * @source  common practice, no published source
 */
export const isSameReading = (firstDbmv: number | null, secondDbmv: number | null): boolean =>
  firstDbmv === null || secondDbmv === null
    ? firstDbmv === secondDbmv
    : Math.abs(firstDbmv - secondDbmv) <= SAME_READING_DB;

/**
 * The middle of three readings, one of which may be an outlier. No level counts as below every level.
 * @param readingsDbmv  three, in dBmV, null where the meter had no level
 * @source  common practice, no published source: the median of three
 */
export function middleReading(
  readingsDbmv: readonly [number | null, number | null, number | null],
): number | null {
  const order = (levelDbmv: number | null) => levelDbmv ?? Number.NEGATIVE_INFINITY;
  return [...readingsDbmv].sort((a, b) => (order(a) < order(b) ? -1 : 1))[1] ?? null;
}
