import { type Trend, trendOf } from '../../core/trend/direction.ts';
import type { WatchedLevel } from '../../core/trend/slope.ts';
import { type Way, whichWay } from '../../core/trend/which-way.ts';
import type { LevelFeed } from './level-feed.ts';

/** Where the level should be: on a target, or as far as the control goes. */
export type LevelGoal =
  | Readonly<{ kind: 'target'; levelDbmv: number; toleranceDb: number }>
  | Readonly<{ kind: 'end'; end: 'low' | 'high' }>
  | Readonly<{ kind: 'none' }>;

/** A number that is older than this is not shown any more: the hand would follow a level that is gone. */
export const STALE_MS = 1000;
/** A direction is said five times a second at most; working it out for every reading would show nothing more. */
const TREND_EVERY_MS = 200;
const RATE_OVER_S = 2;

/** All that is shown of a live level at one moment. */
export type LevelMoment = Readonly<{
  /** `silent`: nothing was read yet; `stale`: nothing for a second; `no-level`: the meter answers without a level. */
  at: 'silent' | 'live' | 'stale' | 'no-level';
  /** Null unless live. */
  levelDbmv: number | null;
  /** Level less target; null without a target, and unless live. */
  offDb: number | null;
  inside: boolean;
  ageS: number | null;
  perSecond: number | null;
  highestDbmv: number | null;
  lowestDbmv: number | null;
  trend: Trend | null;
  way: Way | null;
}>;

export type LevelSource = Readonly<{
  read(): LevelMoment;
  /** Called when something came, and ten times a second in between: a number gets old without news. */
  onTick(listener: () => void): () => void;
}>;

/** The readings that are levels, from a moment of the run on. */
export const levelsSince = (feed: LevelFeed, fromS: number): readonly WatchedLevel[] =>
  feed
    .readings()
    .flatMap(({ atS, levelDbmv }) => (levelDbmv === null || atS < fromS ? [] : [{ atS, levelDbmv }]));

function rateOf(feed: LevelFeed): number | null {
  const readings = feed.readings();
  const nowS = readings.at(-1)?.atS ?? 0;
  let count = 0;
  for (let i = readings.length - 1; i >= 0 && (readings[i]?.atS ?? 0) > nowS - RATE_OVER_S; i--) count++;
  return nowS < RATE_OVER_S ? null : count / RATE_OVER_S;
}

function wayOf(trend: Trend | null, offDb: number | null, goal: LevelGoal): Way | null {
  switch (goal.kind) {
    case 'target':
      return offDb === null ? null : whichWay(trend, offDb, goal.toleranceDb);
    // An automatic loop may work against the hand: a level that comes back is no reason to turn back.
    case 'end':
    case 'none':
      return null;
  }
}

/** What the live level says, worked out once for all who write and draw it. */
export function createLevelSource(feed: LevelFeed, goal: LevelGoal): LevelSource {
  let trend: Trend | null = null;
  let trendMs = Number.NEGATIVE_INFINITY;
  let trendOfCount = -1;

  const trendNow = (nowMs: number): Trend | null => {
    const count = feed.readings().length;
    if (nowMs - trendMs >= TREND_EVERY_MS && count !== trendOfCount) {
      const nowS = feed.readings().at(-1)?.atS ?? 0;
      trend = trendOf(levelsSince(feed, nowS - 40));
      trendMs = nowMs;
      trendOfCount = count;
    }
    return trend;
  };

  const read = (): LevelMoment => {
    const nowMs = feed.nowMs();
    const lastMs = feed.lastMs();
    const last = feed.readings().at(-1);
    const ageMs = lastMs === null ? null : Math.max(0, nowMs - lastMs);
    const { highestDbmv, lowestDbmv } = feed.held();
    const base = { ageS: ageMs === null ? null : ageMs / 1000, highestDbmv, lowestDbmv };
    const quiet = { levelDbmv: null, offDb: null, inside: false, perSecond: null, trend: null, way: null };
    if (last === undefined || ageMs === null) return { at: 'silent', ...base, ...quiet };
    if (ageMs > STALE_MS) return { at: 'stale', ...base, ...quiet };
    if (last.levelDbmv === null) return { at: 'no-level', ...base, ...quiet, perSecond: rateOf(feed) };
    const offDb = goal.kind === 'target' ? last.levelDbmv - goal.levelDbmv : null;
    const way = trendNow(nowMs);
    return {
      at: 'live',
      ...base,
      levelDbmv: last.levelDbmv,
      offDb,
      inside: offDb !== null && goal.kind === 'target' && Math.abs(offDb) <= goal.toleranceDb,
      perSecond: rateOf(feed),
      trend: way,
      way: wayOf(way, offDb, goal),
    };
  };

  return {
    read,
    onTick: (listener) => {
      const off = feed.onFrame(listener);
      const timer = setInterval(listener, 100);
      return () => {
        off();
        clearInterval(timer);
      };
    },
  };
}
