import type { EventData } from '../../core/bridge/contract.ts';
import type { Reading } from '../../core/bridge/records.ts';
import { createFrameNews } from './frame-news.ts';

export type LiveFeed = Readonly<{
  /** Forgets the last sweep. Readings of a sweep whose id is not yet known are taken as the new one's. */
  expect(): void;
  /** From now on only this sweep's readings count. */
  bind(sweepId: string): void;
  /** What a running sweep had already read when this page came. */
  seed(sweepId: string, readings: readonly Reading[]): void;
  arrived(event: EventData<'sweep.reading'>): void;
  readings(): readonly Reading[];
  /** How long the rest will take, as the host reckons it at the newest reading; null while it can't tell. */
  leftMs(): number | null;
  /** Called at most once a frame, and only when something came. */
  onFrame(listener: () => void): () => void;
}>;

/**
 * The readings of the running sweep, past the store and past React: a reading costs one array write, and whoever draws
 * is called once a frame.
 */
export function createLiveFeed(nextFrame: (callback: () => void) => void): LiveFeed {
  const news = createFrameNews(nextFrame);
  let sweepId: string | null = null;
  let slots: (Reading | undefined)[] = [];
  let shown: readonly Reading[] = [];
  let stale = false;
  let leftMs: number | null = null;

  const changed = () => {
    stale = true;
    news.changed();
  };
  const clear = (id: string | null) => {
    sweepId = id;
    slots = [];
    leftMs = null;
    changed();
  };

  return {
    expect: () => clear(null),
    bind: (id) => {
      if (sweepId !== null && sweepId !== id) clear(id);
      sweepId = id;
    },
    seed: (id, readings) => {
      const later = sweepId === id ? slots : [];
      sweepId = id;
      slots = [...readings];
      later.forEach((reading, index) => {
        if (reading !== undefined) slots[index] = reading;
      });
      changed();
    },
    arrived: (event) => {
      sweepId ??= event.sweepId;
      if (event.sweepId !== sweepId) return;
      slots[event.index] = event.reading;
      leftMs = event.leftMs ?? null;
      changed();
    },
    leftMs: () => leftMs,
    readings: () => {
      if (stale) {
        shown = slots.filter((reading) => reading !== undefined);
        stale = false;
      }
      return shown;
    },
    onFrame: news.subscribe,
  };
}
