import type { StateCreator } from 'zustand/vanilla';
import type { WatchRound, WatchSummary, WatchTemperature } from '../../core/bridge/watch-calls.ts';

export type OpenWatch = Readonly<{
  watch: WatchSummary;
  rounds: readonly WatchRound[];
  temperatures: readonly WatchTemperature[];
}>;

/** The watch that a station's screen shows: the running one, else its newest, unless an older one was asked for. */
export type Watching =
  | Readonly<{ at: 'unknown' }>
  | Readonly<{ at: 'none'; stationId: string }>
  | (OpenWatch & Readonly<{ at: 'open'; watches: readonly WatchSummary[] }>);

export type WatchSlice = {
  watching: Watching;
  /** `watches`: all of the station, newest first. */
  watchArrived(stationId: string, open: OpenWatch | null, watches: readonly WatchSummary[]): void;
  watchRoundCame(watchId: string, round: WatchRound): void;
  watchChanged(watch: WatchSummary): void;
};

export const createWatchSlice: StateCreator<WatchSlice> = (set) => ({
  watching: { at: 'unknown' },
  watchArrived: (stationId, open, watches) =>
    set({ watching: open === null ? { at: 'none', stationId } : { at: 'open', ...open, watches } }),
  watchRoundCame: (watchId, round) =>
    set(({ watching }) => {
      if (watching.at !== 'open' || watching.watch.watchId !== watchId) return {};
      const rounds = [...watching.rounds.filter((one) => one.round !== round.round), round].sort(
        (a, b) => a.round - b.round,
      );
      const watch = {
        ...watching.watch,
        roundCount: round.round + round.rounds,
        missedCount: rounds.reduce((sum, one) => sum + (one.gap === null ? 0 : one.rounds), 0),
      };
      return { watching: { ...watching, watch, rounds } };
    }),
  watchChanged: (watch) =>
    set(({ watching }) => {
      if (watching.at !== 'open') return {};
      const watches = watching.watches.map((one) => (one.watchId === watch.watchId ? watch : one));
      const isShown = watching.watch.watchId === watch.watchId;
      return { watching: { ...watching, watches, ...(isShown ? { watch } : {}) } };
    }),
});
