import type { StateCreator } from 'zustand/vanilla';
import {
  FIRST_SETTINGS,
  type KitRow,
  type StoredNotes,
  type StoredSettings,
  type StoredTruck,
} from '../../core/bridge/settings-calls.ts';

/** What the archive keeps beside stations and sweeps: settings, the truck, and the open station's notes. */
export type KeptSlice = {
  settings: StoredSettings;
  truck: StoredTruck;
  kit: readonly KitRow[];
  /** Null until they are here; those of the station that was opened last. */
  notes: StoredNotes | null;
  settingsArrived(settings: StoredSettings): void;
  truckArrived(truck: StoredTruck): void;
  kitArrived(kit: readonly KitRow[]): void;
  notesArrived(notes: StoredNotes): void;
};

export const createKeptSlice: StateCreator<KeptSlice> = (set) => ({
  settings: { settings: FIRST_SETTINGS, revision: 0, changedAt: null },
  truck: { truck: null, revision: 0, changedAt: null },
  kit: [],
  notes: null,
  // An answer may come after the news that it is out of date.
  settingsArrived: (arrived) =>
    set(({ settings }) => (arrived.revision < settings.revision ? {} : { settings: arrived })),
  truckArrived: (arrived) =>
    set(({ truck }) => (arrived.revision < truck.revision ? {} : { truck: arrived })),
  kitArrived: (kit) => set({ kit }),
  notesArrived: (arrived) =>
    set(({ notes }) =>
      notes !== null && notes.stationId === arrived.stationId && arrived.revision < notes.revision
        ? {}
        : { notes: arrived },
    ),
});
