import type { StateCreator } from 'zustand/vanilla';
import type { StationRow } from '../../core/bridge/records.ts';

export type Stations =
  | Readonly<{ at: 'loading' }>
  | Readonly<{ at: 'listed'; rows: readonly StationRow[]; waiting: Waiting }>
  | Readonly<{ at: 'failed'; help: string }>;

/** The stations whose standing is still being worked out, and how many there were when the list came. */
export type Waiting = Readonly<{ ids: ReadonlySet<string>; of: number }>;

export type StationsSlice = {
  stations: Stations;
  /** What is looked for in the list; it stays while one goes to a station and comes back. */
  stationsText: string;
  stationsListed(rows: readonly StationRow[], waiting?: readonly string[]): void;
  /** Some of those that waited, and their rows now; one that is no station any more has none. */
  stationsJudged(ids: readonly string[], rows: readonly StationRow[]): void;
  stationsFailed(help: string): void;
  stationsTyped(text: string): void;
};

export const createStationsSlice: StateCreator<StationsSlice> = (set) => ({
  stations: { at: 'loading' },
  stationsText: '',
  stationsTyped: (stationsText) => set({ stationsText }),
  stationsListed: (rows, waiting = []) =>
    set({ stations: { at: 'listed', rows, waiting: { ids: new Set(waiting), of: waiting.length } } }),
  stationsJudged: (asked, judged) =>
    set(({ stations }) => {
      if (stations.at !== 'listed') return {};
      const { rows, waiting } = stations;
      const byId = new Map(judged.map((row) => [row.stationId, row]));
      const ids = new Set(waiting.ids);
      for (const id of asked) ids.delete(id);
      return {
        stations: {
          at: 'listed',
          rows: rows.map((row) => byId.get(row.stationId) ?? row),
          waiting: { ids, of: ids.size === 0 ? 0 : waiting.of },
        },
      };
    }),
  // A list that is already there is worth more than the news that it could not be renewed.
  stationsFailed: (help) =>
    set(({ stations }) => (stations.at === 'listed' ? {} : { stations: { at: 'failed', help } })),
});
