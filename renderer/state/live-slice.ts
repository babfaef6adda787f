import type { StateCreator } from 'zustand/vanilla';
import type { LiveRun } from '../../core/bridge/live-calls.ts';

/** What is asked for: one frequency at one port. */
export type LivePlan = Readonly<{ stationId: string; portName: string; frequencyMhz: number }>;

/** The level that is watched live. Its readings are not here: they go past the store (state/level-feed.ts). */
export type Live =
  | Readonly<{ at: 'idle' }>
  | Readonly<{ at: 'starting'; plan: LivePlan }>
  | Readonly<{ at: 'running'; plan: LivePlan; run: LiveRun }>
  /** It ended by itself; the reason says what happened and what would help. */
  | Readonly<{ at: 'ended'; plan: LivePlan; reason: string }>;

export type LiveSlice = {
  live: Live;
  liveStarting(plan: LivePlan): void;
  liveStarted(run: LiveRun): void;
  /** One that was already running when this page came. */
  liveFound(run: LiveRun): void;
  /** Null when it was stopped by hand. */
  liveEnded(liveId: string | null, reason: string | null): void;
};

const planOf = ({ stationId, portName, frequencyMhz }: LiveRun): LivePlan => ({
  stationId,
  portName,
  frequencyMhz,
});

export const createLiveSlice: StateCreator<LiveSlice> = (set) => ({
  live: { at: 'idle' },
  liveStarting: (plan) => set({ live: { at: 'starting', plan } }),
  liveStarted: (run) =>
    set(({ live }) => (live.at === 'starting' ? { live: { at: 'running', plan: live.plan, run } } : {})),
  liveFound: (run) =>
    set(({ live }) =>
      live.at === 'idle' || live.at === 'ended' ? { live: { at: 'running', plan: planOf(run), run } } : {},
    ),
  liveEnded: (liveId, reason) =>
    set(({ live }) => {
      if (live.at === 'idle' || live.at === 'ended') return {};
      if (live.at === 'running' && liveId !== null && live.run.liveId !== liveId) return {};
      // While one is starting, the end of another is old news.
      if (live.at === 'starting' && liveId !== null) return {};
      return { live: reason === null ? { at: 'idle' } : { at: 'ended', plan: live.plan, reason } };
    }),
});
