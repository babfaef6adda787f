import type { StateCreator } from 'zustand/vanilla';
import type { StationRow } from '../../core/bridge/records.ts';

export type Stations =
  | Readonly<{ at: 'loading' }>
  | Readonly<{ at: 'listed'; rows: readonly StationRow[] }>
  | Readonly<{ at: 'failed'; help: string }>;

export type StationsSlice = {
  stations: Stations;
  /** What is looked for in the list; it stays while one goes to a station and comes back. */
  stationsText: string;
  stationsListed(rows: readonly StationRow[]): void;
  stationsFailed(help: string): void;
  stationsTyped(text: string): void;
};

export const createStationsSlice: StateCreator<StationsSlice> = (set) => ({
  stations: { at: 'loading' },
  stationsText: '',
  stationsTyped: (stationsText) => set({ stationsText }),
  stationsListed: (rows) => set({ stations: { at: 'listed', rows } }),
  // A list that is already there is worth more than the news that it could not be renewed.
  stationsFailed: (help) =>
    set(({ stations }) => (stations.at === 'listed' ? {} : { stations: { at: 'failed', help } })),
});
