import { flatBeyondEnds, type Point } from '../interpolate.ts';

/** A temperature of the air as somebody noted it, milliseconds on the wall clock. */
export type NotedTemperature = Readonly<{ atMs: number; ambientC: number }>;

/**
 * The temperature of the air at a moment, between what was noted.
 * @param notes  in any order; of two at one moment the later one in the list counts
 * @param atMs   milliseconds on the same clock
 * @returns  degrees C on a straight line between two notes; before the first and after the last, theirs; null without any
 * @source   common practice, no published source
 */
export function temperatureAt(notes: readonly NotedTemperature[], atMs: number): number | null {
  const byMoment = new Map(notes.map(({ atMs: noted, ambientC }) => [noted, ambientC]));
  const points: Point[] = [...byMoment].sort(([a], [b]) => a - b);
  return points.length === 0 ? null : flatBeyondEnds(points, atMs);
}
