import { type Slope, slopeOf, type WatchedLevel } from './slope.ts';
import { chanceOfT } from './student-t.ts';

/** From quick to patient, seconds. A steep change shows in the first, a slow loop needs the last. */
export const WINDOWS_S = [1, 1.5, 2.2, 3.3, 5, 7.5, 11, 16, 24, 36] as const;

/** How often in a minute of watching a level that stands still may be called moving. */
export const FALSE_CALLS_A_MINUTE = 0.005;

/**
 * A window looked at with every reading is as good as this many separate looks each time it has passed. Measured with
 * seeds, so that the false calls stay below what is allowed; no published source.
 */
const LOOKS_A_WINDOW = 100;

/** A window needs so many readings, spread over so much of it. */
const FEWEST_READINGS = 6;
const LEAST_COVER = 0.7;

/** What a meter that shows tenths rounds to, dB. */
export const RESOLUTION_DB = 0.1;

/** Where the newest part of a window contradicts the whole so much, the change is over. */
const CONTRADICTS = 0.002;

export type Trend = Readonly<{
  direction: 'rising' | 'falling' | 'steady';
  /** What it changed over that time, by the line through the readings, dB. */
  changeDb: number;
  overS: number;
  /**
   * 1 less the chance that a level standing still would look so. For `steady`: 1 less the chance of a change as large as
   * `lessThanDb` going unseen.
   */
  confidence: number;
  /** For `steady`: a change over that time, either way, larger than this would show, dB; else null. */
  lessThanDb: number | null;
}>;

type Window = Readonly<{ seconds: number; slope: Slope; coverS: number }>;

/** The readings of the last seconds; null where they are too few or leave too much of the window open. */
function windowOf(readings: readonly WatchedLevel[], seconds: number, resolutionDb: number): Window | null {
  const nowS = readings.at(-1)?.atS ?? 0;
  let from = readings.length;
  while (from > 0 && (readings[from - 1]?.atS ?? 0) >= nowS - seconds) from--;
  const inside = readings.slice(from);
  const coverS = nowS - (inside[0]?.atS ?? nowS);
  if (inside.length < FEWEST_READINGS || coverS < LEAST_COVER * seconds) return null;
  const slope = slopeOf(inside, resolutionDb);
  return slope === null ? null : { seconds, slope, coverS };
}

/** The share of the allowed false calls that one look at a window may use: all windows together use it up in a minute. */
const allowedFor = (seconds: number): number =>
  (FALSE_CALLS_A_MINUTE * seconds) / (60 * LOOKS_A_WINDOW * WINDOWS_S.length);

const chanceOf = ({ dbPerS, errorDbPerS, freedom }: Slope): number =>
  chanceOfT(dbPerS / errorDbPerS, freedom);

/** Does a newer, shorter window say that the change of a longer one is over? */
function isOver(whole: Window, newer: readonly Window[]): boolean {
  return newer.some(({ slope }) => {
    const turned = (whole.slope.dbPerS - slope.dbPerS) * Math.sign(whole.slope.dbPerS);
    if (turned <= 0) return false;
    const errorDbPerS = Math.hypot(slope.errorDbPerS, whole.slope.errorDbPerS);
    return chanceOfT(turned / errorDbPerS, slope.freedom) < CONTRADICTS;
  });
}

/** The largest change that a steady level could still hide, at 95 %: twice the error of the slope, by its window. */
function steadyOf({ slope, coverS }: Window): Trend {
  const changeDb = slope.dbPerS * coverS;
  return {
    direction: 'steady',
    changeDb,
    overS: coverS,
    confidence: 0.95,
    lessThanDb: Math.abs(changeDb) + 2 * slope.errorDbPerS * coverS,
  };
}

/**
 * Which way a level is going, from the last seconds of its readings: the shortest window whose regression is sure, so
 * that a steep change is called at once and a slow one after as long as it needs. Each window's test uses the small-sample
 * distribution, and all of them, with every reading anew, are wrong in fewer than one of a hundred minutes.
 * @param readings      in the order of their times: seconds and dBmV; older than the longest window is not looked at
 * @param resolutionDb  what the readings are rounded to, dB, 0 or more; 0.1 unless told
 * @returns  direction, change in dB over seconds, and confidence; null while there are too few readings to say
 * @throws   RangeError on a reading that is no number, or on times that go back
 * @source   Student's t test of a regression's slope; Bonferroni's inequality over windows and looks; the windows and
 *           what counts as a look: no published source
 */
export function trendOf(
  readings: readonly WatchedLevel[],
  resolutionDb: number = RESOLUTION_DB,
): Trend | null {
  const nowS = readings.at(-1)?.atS ?? 0;
  const longestS = WINDOWS_S.at(-1) ?? 0;
  const start = readings.findIndex((reading) => reading.atS >= nowS - longestS);
  const recent = start <= 0 ? readings : readings.slice(start);
  recent.forEach(({ atS, levelDbmv }, i) => {
    if (!Number.isFinite(atS) || !Number.isFinite(levelDbmv)) throw new RangeError('a reading is no number');
    if (atS < (recent[i - 1]?.atS ?? atS)) throw new RangeError(`a reading at ${atS} s goes back in time`);
  });
  const windows = WINDOWS_S.flatMap((seconds) => windowOf(recent, seconds, resolutionDb) ?? []);
  for (const [i, window] of windows.entries()) {
    const chance = chanceOf(window.slope);
    if (chance >= allowedFor(window.seconds) || isOver(window, windows.slice(0, i))) continue;
    return {
      direction: window.slope.dbPerS > 0 ? 'rising' : 'falling',
      changeDb: window.slope.dbPerS * window.coverS,
      overS: window.coverS,
      confidence: 1 - chance,
      lessThanDb: null,
    };
  }
  // The longest that nothing newer contradicts says most about standing still.
  const steady = windows.findLast((window, i) => !isOver(window, windows.slice(0, i))) ?? windows[0];
  return steady === undefined ? null : steadyOf(steady);
}
