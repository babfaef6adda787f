import { trendOf } from '../trend/direction.ts';
import type { WatchedLevel } from '../trend/slope.ts';
import type { StepTarget } from './target.ts';

/** How long a level has to lie on its target, seconds. */
export const ON_TARGET_S = 2;
/** How long and how still it has to stand once a control has settled. Common practice, no published source. */
export const STEADY_S = 10;
export const STEADY_WITHIN_DB = 0.5;
/** How far a level has to have moved under a hand before its end can be one. */
export const MOVED_DB = 1;
/** How long it has to stay at a control's end before that counts as one. */
export const AT_END_S = 3;
/** How far a single reading may lie off while the level itself is on its target. */
const READING_SCATTER_DB = 0.5;
/** Two halves of a level that stands still differ by no more. */
const STILL_DB = 0.25;
const FEWEST = 5;
/** This much of a window has to be covered by readings. */
const COVER = 0.85;

export type Proof = Readonly<{
  proven: boolean;
  /** The level that proves it, dBmV at the port; null while nothing does. */
  levelDbmv: number | null;
  /** What is seen, without a full stop. */
  words: string;
}>;

const no = (words: string): Proof => ({ proven: false, levelDbmv: null, words });

/** The readings of the last seconds; null where they are too few, or leave a hole in front. */
function lastOf(readings: readonly WatchedLevel[], seconds: number): readonly WatchedLevel[] | null {
  const nowS = readings.at(-1)?.atS ?? 0;
  const inside = readings.filter(({ atS }) => atS >= nowS - seconds);
  const coverS = nowS - (inside[0]?.atS ?? nowS);
  return inside.length >= FEWEST && coverS >= COVER * seconds ? inside : null;
}

const meanOf = (readings: readonly WatchedLevel[]): number =>
  readings.reduce((sum, { levelDbmv }) => sum + levelDbmv, 0) / readings.length;

/** The means of the older and of the newer half. */
function halvesOf(readings: readonly WatchedLevel[]): readonly [number, number] {
  const half = Math.floor(readings.length / 2);
  return [meanOf(readings.slice(0, half)), meanOf(readings.slice(half))];
}

/**
 * Does a level lie on its target?
 * @param readings  seconds and dBmV at the port, of one live run since the step began, in order
 * @param target    level in dBmV and how near is near enough, dB
 * @returns  proven when for two seconds both halves of the readings lie within the tolerance and none strays far
 * @throws   RangeError on a reading that is no number
 * @source   common practice, no published source
 */
export function onTarget(readings: readonly WatchedLevel[], target: StepTarget): Proof {
  const last = lastOf(readings, ON_TARGET_S);
  if (last === null) return no('waiting for two seconds of readings');
  const { levelDbmv, toleranceDb } = target;
  const near = halvesOf(last).every((half) => Math.abs(half - levelDbmv) <= toleranceDb);
  const still = last.every((one) => Math.abs(one.levelDbmv - levelDbmv) <= toleranceDb + READING_SCATTER_DB);
  const meanDbmv = meanOf(last);
  const offDb = meanDbmv - levelDbmv;
  if (near && still) return { proven: true, levelDbmv: meanDbmv, words: 'on target for two seconds' };
  return no(`${Math.abs(offDb).toFixed(1)} dB ${offDb > 0 ? 'above' : 'below'} the target`);
}

/**
 * Does a level stand still?
 * @param readings  as for `onTarget`
 * @param seconds   how long, `STEADY_S` unless told
 * @returns  proven when a change larger than half a dB would have shown in that time, and none did
 * @throws   RangeError on a reading that is no number
 * @source   core/trend; how long and how still: common practice, no published source
 */
export function standsStill(readings: readonly WatchedLevel[], seconds: number = STEADY_S): Proof {
  const last = lastOf(readings, seconds);
  if (last === null) return no(`waiting for ${seconds} seconds of readings`);
  const trend = trendOf(last);
  const [older, newer] = halvesOf(last);
  if (trend === null) return no('too few readings yet');
  if (trend.direction !== 'steady') return no(trend.direction);
  const within =
    (trend.lessThanDb ?? 0) <= STEADY_WITHIN_DB && Math.abs(newer - older) <= STEADY_WITHIN_DB / 2;
  if (!within) return no('not still enough yet');
  return { proven: true, levelDbmv: meanOf(last), words: `still for ${seconds} seconds` };
}

/**
 * Has a control been turned to one of its ends?
 * @param readings  as for `onTarget`
 * @param end       `low`: the least output; `high`: the most
 * @returns  proven when the level has moved at least 1 dB that way since the step began, lies at the farthest of all that
 *           was read, and goes no further for three seconds
 * @throws   RangeError on a reading that is no number
 * @source   common practice, no published source
 */
export function atEnd(readings: readonly WatchedLevel[], end: 'low' | 'high'): Proof {
  const sign = end === 'high' ? 1 : -1;
  const last = lastOf(readings, AT_END_S);
  if (last === null) return no('waiting for three seconds of readings');
  const nowDbmv = meanOf(last);
  const begun = readings.slice(0, FEWEST);
  const movedDb = sign * (nowDbmv - meanOf(begun));
  const way = end === 'high' ? 'up' : 'down';
  if (movedDb < MOVED_DB) return no(`turn ${way}`);
  const trend = trendOf(last);
  if (trend === null) return no('too few readings yet');
  if (trend.direction !== 'steady') return no(`${trend.direction}: go on`);
  const [older, newer] = halvesOf(last);
  if (Math.abs(newer - older) > STILL_DB) return no('still moving');
  const farthest = farthestMean(readings, sign);
  if (sign * (farthest - nowDbmv) > 0.5) return no(`it was further ${way} before`);
  return { proven: true, levelDbmv: nowDbmv, words: `it goes no further ${way}` };
}

/** The farthest that a second's worth of readings has been, so that one stray reading is no end. */
function farthestMean(readings: readonly WatchedLevel[], sign: 1 | -1): number {
  let farthest = Number.NaN;
  for (let i = 0; i + FEWEST <= readings.length; i += FEWEST) {
    const mean = meanOf(readings.slice(i, i + FEWEST));
    if (Number.isNaN(farthest) || sign * (mean - farthest) > 0) farthest = mean;
  }
  return farthest;
}
