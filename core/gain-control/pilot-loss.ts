import { trendOf } from '../trend/direction.ts';
import type { WatchedLevel } from '../trend/slope.ts';

/** A pilot that falls so far at once is gone: a control moves its level slowly. Common practice, no published source. */
export const GONE_DB = 10;
/** Above the level that was set, no cable and no weather lifts a band in automatic so far, dB. Common practice, no published source. */
export const RUN_UP_DB = 2;
/** How near to its end a control counts as being there, dB. */
const AT_END_DB = 0.75;

/** A live reading at the port: null where the meter found no level. */
export type MaybeLevel = Readonly<{ atS: number; levelDbmv: number | null }>;

export type PilotLoss = Readonly<{
  verdict: 'held' | 'suspected' | 'lost';
  /** What was seen, a whole sentence; null when it is held. */
  words: string | null;
}>;

const HELD: PilotLoss = { verdict: 'held', words: null };
const FEWEST_GONE = 3;

function pilotGone(readings: readonly MaybeLevel[], setDbmv: number): boolean {
  const last = readings.slice(-FEWEST_GONE);
  return (
    last.length === FEWEST_GONE &&
    last.every(({ levelDbmv }) => levelDbmv === null || levelDbmv < setDbmv - GONE_DB)
  );
}

/**
 * Has an automatic control lost its pilot? Two ways to see it: the pilot itself is not there any more; or a channel
 * beside it rises well above its set level without a hand, because a control that hears nothing turns up to its end.
 * @param readings  of one frequency at the output, in automatic, hands off: seconds and dBmV, in order
 * @param watched   `pilot` when they are the pilot's own, `channel` when they are another carrier's
 * @param setDbmv   the level that was set there
 * @param upDb      how far the control reaches up from the set level, null where it is not known
 * @returns  `lost` when the pilot is gone, or the channel stands at the upper end; `suspected` while it climbs
 * @throws   RangeError on a reading that is no number
 * @source   common practice, no published source
 */
export function pilotLoss(
  readings: readonly MaybeLevel[],
  watched: 'pilot' | 'channel',
  setDbmv: number,
  upDb: number | null,
): PilotLoss {
  if (watched === 'pilot' && pilotGone(readings, setDbmv))
    return {
      verdict: 'lost',
      words:
        'The pilot is gone: the control hears nothing and turns up to its end. Switch to manual and look for it.',
    };
  const levels = readings.filter((one): one is WatchedLevel => one.levelDbmv !== null);
  const trend = trendOf(levels);
  const last = levels.slice(-FEWEST_GONE);
  if (trend === null || last.length < FEWEST_GONE) return HELD;
  const nowDbmv = last.reduce((sum, { levelDbmv }) => sum + levelDbmv, 0) / last.length;
  const aboveDb = nowDbmv - setDbmv;
  if (aboveDb < RUN_UP_DB) return HELD;
  const above = `${aboveDb.toFixed(1)} dB above the level that was set`;
  const atEnd = upDb !== null && Math.abs(aboveDb - upDb) <= AT_END_DB;
  if (atEnd && trend.direction === 'steady')
    return {
      verdict: 'lost',
      words: `The level stands ${above}, where the control ends: it has lost its pilot. Switch to manual and look for it.`,
    };
  const how = trend.direction === 'rising' ? 'is rising and lies' : 'stands';
  return {
    verdict: 'suspected',
    words: `The level ${how} ${above} with nobody at the control: it may have lost its pilot.`,
  };
}
