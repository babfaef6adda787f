/** Fewer readings than this say nothing of the pace. */
const LEAST = 3;
/** So many of the newest readings tell the pace; a pause or a broken link before them is forgotten. */
const NEWEST = 20;

/**
 * How long the rest of a sweep will take at the pace of its newest readings.
 * @param readAtMs      when each reading came, in order, on a clock that never goes back
 * @param plannedCount  readings in the whole plan
 * @returns  ms; null while too few readings say nothing of the pace
 * @source   common practice, no published source: the median of the newest intervals
 */
export function timeLeftMs(readAtMs: readonly number[], plannedCount: number): number | null {
  if (readAtMs.length < LEAST) return null;
  const newest = readAtMs.slice(-NEWEST - 1);
  const intervals = newest
    .slice(1)
    .map((atMs, i) => atMs - (newest[i] ?? atMs))
    .sort((a, b) => a - b);
  const paceMs = intervals[intervals.length >> 1] ?? 0;
  const leftMs = Math.max(0, plannedCount - readAtMs.length) * paceMs;
  return Number.isFinite(leftMs) ? leftMs : null;
}
