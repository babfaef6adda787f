import type { EventData } from '../../core/bridge/contract.ts';
import type { LiveReading, LiveRun } from '../../core/bridge/live-calls.ts';
import { createFrameNews } from './frame-news.ts';

/** One reading of the level that is watched: seconds since the run began, dBmV at the port; null where the meter had none. */
export type LevelAt = Readonly<{ atS: number; levelDbmv: number | null }>;

export type LevelFeed = Readonly<{
  /** Forgets the last run. Readings of a run whose id is not yet known are taken as the new one's. */
  expect(): void;
  /** From now on only this run's readings count. */
  bind(liveId: string): void;
  /** What a running one had already read when this page came. */
  seed(run: LiveRun, readings: readonly LiveReading[]): void;
  arrived(event: EventData<'live.reading'>): void;
  /**
   * It was stopped: what was read stays to be seen, but no number stands for the present any more, and what still comes
   * of that run is not taken.
   */
  rest(): void;
  /** The same, and what was read goes as well: the probe moves to another test point. */
  forget(): void;
  /** The run that the readings are of. */
  liveId(): string | null;
  readings(): readonly LevelAt[];
  /** Page time at which the last reading came, in milliseconds; null before the first. */
  lastMs(): number | null;
  /** Page time now, in milliseconds. */
  nowMs(): number;
  /** Now on the readings' own clock, in seconds since the run began. */
  nowS(): number;
  held(): Readonly<{ highestDbmv: number | null; lowestDbmv: number | null }>;
  /** Holds from now on. */
  holdAnew(): void;
  /** Called at most once a frame, and only when something came. */
  onFrame(listener: () => void): () => void;
}>;

/** Ten minutes at the fastest that a meter gives; what is older is in the archive and not needed on the screen. */
const MOST_READINGS = 12_000;

/** What rests is drawn this far from the present. */
const RESTS_S = 1.5;
const forgotten = { highestDbmv: null, lowestDbmv: null };

/**
 * The readings of the level that is watched, past the store and past React: a reading costs one array write, and whoever
 * writes or draws is called once a frame.
 */
export function createLevelFeed(nextFrame: (callback: () => void) => void, clockMs: () => number): LevelFeed {
  const news = createFrameNews(nextFrame);
  let liveId: string | null = null;
  let readings: LevelAt[] = [];
  let lastMs: number | null = null;
  let held: { highestDbmv: number | null; lowestDbmv: number | null } = forgotten;
  let resting = false;

  const clear = (id: string | null) => {
    liveId = id;
    readings = [];
    lastMs = null;
    held = forgotten;
    resting = false;
    news.changed();
  };
  const take = (elapsedMs: number, meterDbmv: number | null, testPointLossDb: number) => {
    const levelDbmv = meterDbmv === null ? null : meterDbmv + testPointLossDb;
    readings.push({ atS: elapsedMs / 1000, levelDbmv });
    if (readings.length > MOST_READINGS) readings = readings.slice(-MOST_READINGS / 2);
    if (levelDbmv === null) return;
    held = {
      highestDbmv: Math.max(levelDbmv, held.highestDbmv ?? levelDbmv),
      lowestDbmv: Math.min(levelDbmv, held.lowestDbmv ?? levelDbmv),
    };
  };

  return {
    expect: () => clear(null),
    bind: (id) => {
      if (liveId !== null && liveId !== id) clear(id);
      liveId = id;
    },
    seed: (run, kept) => {
      clear(run.liveId);
      for (const { elapsedMs, meterDbmv } of kept) take(elapsedMs, meterDbmv, run.testPointLossDb);
    },
    arrived: (event) => {
      if (resting) return;
      liveId ??= event.liveId;
      if (event.liveId !== liveId) return;
      const lastS = readings.at(-1)?.atS ?? -1;
      // A reading that was there already, from the archive.
      if (event.elapsedMs / 1000 <= lastS) return;
      take(event.elapsedMs, event.meterDbmv, event.testPointLossDb);
      lastMs = clockMs();
      news.changed();
    },
    rest: () => {
      lastMs = null;
      resting = true;
      news.changed();
    },
    forget: () => {
      clear(liveId);
      resting = true;
    },
    liveId: () => liveId,
    readings: () => readings,
    lastMs: () => lastMs,
    nowMs: clockMs,
    // Nothing that rests is the present.
    nowS: () => (readings.at(-1)?.atS ?? 0) + (lastMs === null ? RESTS_S : (clockMs() - lastMs) / 1000),
    held: () => held,
    holdAnew: () => {
      held = forgotten;
      news.changed();
    },
    onFrame: news.subscribe,
  };
}
