import type { Input, Output } from '../../../core/bridge/contract.ts';
import {
  FIRST_SETTINGS,
  Settings,
  type StoredNotes,
  type StoredSettings,
  type StoredTruck,
} from '../../../core/bridge/settings-calls.ts';
import { StationNotes } from '../../../core/files/station-notes.ts';
import { trimsAfter } from '../../../core/files/trims-after.ts';
import { Truck } from '../../../core/files/truck.ts';
import { kitOf, type TruckMove, truckAfter } from '../../../core/files/truck-moves.ts';
import { maybe, momentOf, orderedJson } from '../archive/quantities.ts';
import type { Designs } from './designs.ts';
import { refused, type ServiceParts } from './service-parts.ts';

export type SettingsService = Readonly<{
  read(): StoredSettings;
  change(input: Input<'settings.change'>): StoredSettings;
  readNotes(stationId: string): StoredNotes;
  changeNotes(input: Input<'notes.change'>): StoredNotes;
  readTruck(): StoredTruck;
  /** The truck, and every value that some station of the archive takes. */
  truckWithKit(): Output<'truck.read'>;
  changeTruck(input: Input<'truck.change'>): StoredTruck;
  /**
   * Takes parts out of the truck and puts others back; inside the caller's transaction.
   * @returns  what tells every page of it, to be called when the transaction is on disk
   */
  moveParts(moves: readonly TruckMove[], visit: number, changedAtMs: number): () => void;
  /** The same for a station's trims: their ranges follow the hand. */
  moveTrims(
    stationId: string,
    turns: readonly Readonly<{ name: string; byDb: number }>[],
    changedAtMs: number,
  ): () => void;
}>;

type Kept<T> = Readonly<{ value: T; revision: number; changedAt: string | null }>;
const NOT_KEPT = { value: null, revision: 0, changedAt: null } as const;

/** Settings, notes beside the stations' files, and the truck: each change a revision, the newest one holds. */
export function createSettings(
  { archive, now, emit }: Pick<ServiceParts, 'archive' | 'now' | 'emit'>,
  designs: Designs,
): SettingsService {
  const newestNotes = (stationId: string): Kept<StationNotes | null> => {
    const row = archive.settings.newestNotes(stationId);
    if (row === undefined) return NOT_KEPT;
    const value = maybe(row.json, (json) => StationNotes.parse(JSON.parse(json)));
    return { value, revision: row.revision, changedAt: momentOf(row.changedAtMs) };
  };
  const newestTruck = (): Kept<Truck | null> => {
    const row = archive.settings.newestTruck();
    if (row === undefined) return NOT_KEPT;
    const value = maybe(row.json, (json) => Truck.parse(JSON.parse(json)));
    return { value, revision: row.revision, changedAt: momentOf(row.changedAtMs) };
  };
  const read = (): StoredSettings => {
    const row = archive.settings.newestSettings();
    if (row === undefined) return { settings: FIRST_SETTINGS, revision: 0, changedAt: null };
    const settings = Settings.parse(JSON.parse(row.json));
    return { settings, revision: row.revision, changedAt: momentOf(row.changedAtMs) };
  };
  const readNotes = (stationId: string): StoredNotes => {
    const { value: notes, ...kept } = newestNotes(stationId);
    return { stationId, notes, ...kept };
  };
  const readTruck = (): StoredTruck => {
    const { value: truck, ...kept } = newestTruck();
    return { truck, ...kept };
  };
  const refuseStale = (what: string, basedOn: number, revision: number): void => {
    if (basedOn !== revision)
      throw refused(
        'changed-meanwhile',
        what,
        'changed elsewhere in the meantime; look at it as it is now, then change it again',
      );
  };

  return {
    read,
    readNotes(stationId) {
      designs.newest(stationId);
      return readNotes(stationId);
    },
    readTruck,
    change({ basedOn, settings }) {
      archive.write(() => {
        const newest = read();
        refuseStale('settings', basedOn, newest.revision);
        const json = orderedJson(settings);
        if (json === orderedJson(newest.settings)) return;
        archive.settings.addSettings({ json, changedAtMs: now().getTime() });
      });
      const kept = read();
      if (kept.revision !== basedOn) emit('settings.changed', kept);
      return kept;
    },
    changeNotes({ stationId, basedOn, notes }) {
      designs.newest(stationId);
      archive.write(() => {
        const newest = newestNotes(stationId);
        refuseStale('station notes', basedOn, newest.revision);
        const json = maybe(notes, orderedJson);
        if (json === maybe(newest.value, orderedJson)) return;
        archive.settings.addNotes(stationId, { json, changedAtMs: now().getTime() });
      });
      const kept = readNotes(stationId);
      if (kept.revision !== basedOn) emit('notes.changed', kept);
      return kept;
    },
    truckWithKit() {
      const stations = archive.stations.list().map(({ stationId }) => designs.newest(stationId).station);
      return { ...readTruck(), kit: kitOf(stations.flatMap(({ positions }) => positions)) };
    },
    changeTruck({ basedOn, truck }) {
      archive.write(() => {
        const newest = newestTruck();
        refuseStale('truck', basedOn, newest.revision);
        const json = maybe(truck, orderedJson);
        if (json === maybe(newest.value, orderedJson)) return;
        archive.settings.addTruck({ json, changedAtMs: now().getTime() }, null);
      });
      const kept = readTruck();
      if (kept.revision !== basedOn) emit('truck.changed', kept);
      return kept;
    },
    moveParts(moves, visit, changedAtMs) {
      const { value: truck } = newestTruck();
      if (truck === null) return () => undefined;
      archive.settings.addTruck({ json: orderedJson(truckAfter(truck, moves)), changedAtMs }, visit);
      return () => emit('truck.changed', readTruck());
    },
    moveTrims(stationId, turns, changedAtMs) {
      const { value: notes } = newestNotes(stationId);
      if (notes?.trims === undefined) return () => undefined;
      const json = orderedJson({ ...notes, trims: trimsAfter(notes.trims, turns) });
      if (json === orderedJson(notes)) return () => undefined;
      archive.settings.addNotes(stationId, { json, changedAtMs });
      return () => emit('notes.changed', readNotes(stationId));
    },
  };
}
