import type { WatchedLevel } from '../trend/slope.ts';
import { type LevelUnitWord, level } from '../words/numbers.ts';
import { RANGE_UNCERTAINTY_DB, type RangeTest, rangeTest } from './range.ts';

/** How near to the set level counts as being back, dB, and for how long, seconds. Common practice, no published source. */
export const BACK_WITHIN_DB = 0.2;
const BACK_S = 2;
/** A control stands at an end, or at the set level, when it is still for so long. */
const STILL_S = 1.5;
/** Two halves of readings that stand still differ by no more, dB. */
const STILL_DB = 0.25;
/** Farther than this from the set level is a way to an end, dB. */
const AWAY_DB = 1;
const FEWEST = 5;
const COVER = 0.85;

/** Where the test is: it finds out by itself what the hand is doing. */
export type RangePhase = 'set' | 'up' | 'down' | 'back' | 'done';

/** A range test as far as it has come; levels in dBmV at the port. */
export type RangeRun = Readonly<{
  phase: RangePhase;
  /** The level at the beginning. */
  setDbmv: number | null;
  /** The farthest places where it stood still so far. */
  highDbmv: number | null;
  lowDbmv: number | null;
  /** Where it stood at the end, back at the set level. */
  returnedDbmv: number | null;
  /** The last seconds of readings. */
  recent: readonly WatchedLevel[];
}>;

export const rangeRunBegin: RangeRun = {
  phase: 'set',
  setDbmv: null,
  highDbmv: null,
  lowDbmv: null,
  returnedDbmv: null,
  recent: [],
};

const meanOf = (readings: readonly WatchedLevel[]): number =>
  readings.reduce((sum, { levelDbmv }) => sum + levelDbmv, 0) / readings.length;

/** The level at which the readings of the last seconds stand still; null while they move or are too few. */
function stillAt(recent: readonly WatchedLevel[], seconds: number): number | null {
  const nowS = recent.at(-1)?.atS ?? 0;
  const last = recent.filter(({ atS }) => atS >= nowS - seconds);
  const coverS = nowS - (last[0]?.atS ?? nowS);
  if (last.length < FEWEST || coverS < COVER * seconds) return null;
  const half = Math.floor(last.length / 2);
  const [older, newer] = [meanOf(last.slice(0, half)), meanOf(last.slice(half))];
  return Math.abs(newer - older) <= STILL_DB ? meanOf(last) : null;
}

/** Where it is right now: a few readings, so that one alone decides nothing. */
const nowAt = (recent: readonly WatchedLevel[]): number => meanOf(recent.slice(-3));

function lookForUp(run: RangeRun, setDbmv: number): RangeRun {
  const still = stillAt(run.recent, STILL_S);
  const highDbmv =
    still !== null && still > setDbmv + AWAY_DB ? Math.max(still, run.highDbmv ?? still) : run.highDbmv;
  // It turns round only below the set level: a hand that stops on its way up, or goes a little back, is no end.
  const phase = highDbmv !== null && nowAt(run.recent) < setDbmv - AWAY_DB ? 'down' : 'up';
  return { ...run, highDbmv, phase };
}

function lookForDown(run: RangeRun, setDbmv: number): RangeRun {
  const still = stillAt(run.recent, STILL_S);
  const lowDbmv =
    still !== null && still < setDbmv - AWAY_DB ? Math.min(still, run.lowDbmv ?? still) : run.lowDbmv;
  const phase = lowDbmv !== null && nowAt(run.recent) > lowDbmv + AWAY_DB ? 'back' : 'down';
  return { ...run, lowDbmv, phase };
}

function lookForBack(run: RangeRun, setDbmv: number): RangeRun {
  const still = stillAt(run.recent, BACK_S);
  if (still !== null && run.lowDbmv !== null && still < run.lowDbmv - STILL_DB)
    return { ...run, phase: 'down', lowDbmv: still };
  if (still === null || Math.abs(still - setDbmv) > BACK_WITHIN_DB) return run;
  return { ...run, phase: 'done', returnedDbmv: still };
}

/**
 * Takes one reading of a range test: the level at rest, up to its end, down to its end, and back.
 * @param run      the test so far; `rangeRunBegin` at first
 * @param reading  seconds on a clock that never goes back, dBmV at the port
 * @returns  the test after it. A hand that pauses on its way has found no end: an end is the farthest place where the
 *           level stood still before it turned round past the set level. After `done` nothing changes any more.
 * @throws   RangeError on a reading that is no number
 * @source   common practice, no published source
 */
export function rangeRunAfter(run: RangeRun, reading: WatchedLevel): RangeRun {
  if (!Number.isFinite(reading.atS) || !Number.isFinite(reading.levelDbmv))
    throw new RangeError('a reading is no number');
  const fromS = reading.atS - BACK_S;
  const next = { ...run, recent: [...run.recent.filter(({ atS }) => atS >= fromS), reading] };
  const { setDbmv } = next;
  if (setDbmv === null) {
    const still = stillAt(next.recent, STILL_S);
    return still === null ? next : { ...next, setDbmv: still, phase: 'up' };
  }
  switch (next.phase) {
    case 'set':
    case 'up':
      return lookForUp(next, setDbmv);
    case 'down':
      return lookForDown(next, setDbmv);
    case 'back':
      return lookForBack(next, setDbmv);
    case 'done':
      return run;
  }
}

/**
 * What a range test has found.
 * @param uncertaintyDb  of each figure, dB, 0.5 unless told
 * @returns  its verdict with up, down and their sum in dB, once both ends are found; null before
 * @source   core/gain-control/range.ts
 */
export function rangeRunVerdict(
  { setDbmv, highDbmv, lowDbmv }: RangeRun,
  uncertaintyDb: number = RANGE_UNCERTAINTY_DB,
): RangeTest | null {
  if (setDbmv === null || highDbmv === null || lowDbmv === null) return null;
  return rangeTest(highDbmv - setDbmv, setDbmv - lowDbmv, uncertaintyDb);
}

/**
 * What to do next in a range test.
 * @param levelUnit  what levels are said in; dBmV when left out
 * @returns  an instruction without a full stop
 * @source   common practice, no published source
 */
export function rangeRunWords(run: RangeRun, levelUnit: LevelUnitWord = 'dBmV'): string {
  const setLevel = level(run.setDbmv ?? 0, levelUnit);
  switch (run.phase) {
    case 'set':
      return 'hands off: reading the set level';
    case 'up':
      return run.highDbmv === null
        ? 'turn up to the end and leave it there for two seconds'
        : 'if that is the end, turn down to the other one and leave it there for two seconds';
    case 'down':
      return run.lowDbmv === null
        ? 'turn down to the end and leave it there for two seconds'
        : `if that is the end, turn back to the set level, ${setLevel}`;
    case 'back':
      return `back to the set level, ${setLevel}, and leave it there for two seconds`;
    case 'done':
      return 'done, and back at the set level';
  }
}
