import type { Station } from '../../core/files/station.ts';
import { lastRoundOf } from '../../core/watch/schedule.ts';
import { type LevelAtTemperature, type Swing, swingOf } from '../../core/watch/swing.ts';
import { temperatureAt } from '../../core/watch/temperature-at.ts';
import type { OpenWatch } from './watch-slice.ts';

export type WatchPoint = Readonly<{
  atMs: number;
  /** dBmV at the port; null where the round had none. */
  levelDbmv: number | null;
  ambientC: number | null;
}>;
export type WatchLine = Readonly<{
  frequencyMhz: number;
  isPilot: boolean;
  points: readonly WatchPoint[];
  /** What the level is told from: its first reading. */
  firstDbmv: number | null;
}>;
export type WatchGap = Readonly<{ fromMs: number; toMs: number; rounds: number; why: string }>;

export type WatchView = Readonly<{
  lines: readonly WatchLine[];
  gaps: readonly WatchGap[];
  fromMs: number;
  toMs: number;
  /** How many rounds there will be; null without an end. */
  plannedRounds: number | null;
  nextAtMs: number | null;
  /** Of the pilot, else of the highest channel. */
  swing: Swing | null;
  swingMhz: number | null;
  coldestC: number | null;
  hottestC: number | null;
}>;

const LEAST_SPAN_MS = 60_000;

/** A watch as it is drawn: a line a channel, gaps as gaps, and what the weather did. */
export function viewWatch({ watch, rounds, temperatures }: OpenWatch, station: Station): WatchView {
  const notes = temperatures.map(({ at, ambientC }) => ({ atMs: Date.parse(at), ambientC }));
  const fromMs = Date.parse(watch.startedAt);
  const everyMs = watch.everyS * 1000;
  const lines = watch.frequenciesMhz.map((frequencyMhz): WatchLine => {
    const points = rounds.map(({ at, levels }): WatchPoint => {
      const atMs = Date.parse(at);
      const meterDbmv = levels.find((one) => one.frequencyMhz === frequencyMhz)?.meterDbmv ?? null;
      return {
        atMs,
        levelDbmv: meterDbmv === null ? null : meterDbmv + watch.testPointLossDb,
        ambientC: temperatureAt(notes, atMs),
      };
    });
    return {
      frequencyMhz,
      isPilot: frequencyMhz === watch.pilotMhz,
      points,
      firstDbmv: points.find(({ levelDbmv }) => levelDbmv !== null)?.levelDbmv ?? null,
    };
  });
  const gaps = rounds.flatMap(({ round, rounds: count, gap }): WatchGap[] =>
    gap === null
      ? []
      : [
          {
            fromMs: fromMs + round * everyMs,
            toMs: fromMs + (round + count) * everyMs,
            rounds: count,
            why: gap,
          },
        ],
  );
  const of = lines.find(({ isPilot }) => isPilot) ?? lines.at(-1);
  const known = (of?.points ?? []).flatMap(({ levelDbmv, ambientC }): LevelAtTemperature[] =>
    levelDbmv === null || ambientC === null ? [] : [{ levelDbmv, ambientC }],
  );
  const air = known.map(({ ambientC }) => ambientC);
  const plan = {
    startedAtMs: fromMs,
    everyMs,
    forMs: watch.forS === null ? null : watch.forS * 1000,
  };
  const lastRound = lastRoundOf(plan);
  const endMs =
    plan.forMs !== null && watch.state === 'running'
      ? fromMs + plan.forMs
      : Math.max(...rounds.map(({ at, rounds: count }) => Date.parse(at) + (count - 1) * everyMs), fromMs);
  return {
    lines,
    gaps,
    fromMs,
    toMs: Math.max(endMs, fromMs + LEAST_SPAN_MS),
    plannedRounds: lastRound === null ? null : lastRound + 1,
    nextAtMs: watch.state === 'running' ? fromMs + watch.roundCount * everyMs : null,
    swing:
      of === undefined || station.span === undefined ? null : swingOf(known, of.frequencyMhz, station.span),
    swingMhz: of?.frequencyMhz ?? null,
    coldestC: air.length === 0 ? null : Math.min(...air),
    hottestC: air.length === 0 ? null : Math.max(...air),
  };
}
