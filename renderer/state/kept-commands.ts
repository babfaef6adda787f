import type { Settings } from '../../core/bridge/settings-calls.ts';
import type { StationNotes } from '../../core/files/station-notes.ts';
import type { Truck } from '../../core/files/truck.ts';
import { attempt, type Context, helpOf } from './context.ts';

/** What every screen needs from the first moment. Without it the page shows dBmV and judges by the defaults, and says so. */
export async function readKept({ client, store }: Context): Promise<void> {
  try {
    store.getState().settingsArrived(await client.call('settings.read', {}));
    const { kit, ...truck } = await client.call('truck.read', {});
    store.getState().truckArrived(truck);
    store.getState().kitArrived(kit);
  } catch (fault) {
    store
      .getState()
      .noticed({ tone: 'problem', text: 'The settings could not be read.', help: helpOf(fault) });
  }
}

/** The values that some station takes; asked again when the truck is opened, because stations may have come. */
export async function readKit({ client, store }: Context): Promise<void> {
  try {
    const { kit, ...truck } = await client.call('truck.read', {});
    store.getState().kitArrived(kit);
    store.getState().truckArrived(truck);
  } catch (fault) {
    store.getState().noticed({ tone: 'problem', text: 'The truck could not be read.', help: helpOf(fault) });
  }
}

/** The notes of a station, before its sheet is judged by them. */
export async function readNotes({ client, store }: Context, stationId: string): Promise<void> {
  try {
    store.getState().notesArrived(await client.call('notes.read', { stationId }));
  } catch (fault) {
    store
      .getState()
      .noticed({ tone: 'problem', text: 'The station’s notes could not be read.', help: helpOf(fault) });
  }
}

/** @returns  true when the archive has them */
export async function changeSettings(context: Context, settings: Settings): Promise<boolean> {
  const { client, store } = context;
  const { revision: basedOn } = store.getState().settings;
  const kept = await attempt(context, 'settings', 'The settings were not kept.', () =>
    client.call('settings.change', { basedOn, settings }),
  );
  if (kept === null) {
    await refresh(() => client.call('settings.read', {}), store.getState().settingsArrived);
    return false;
  }
  store.getState().settingsArrived(kept);
  return true;
}

/** @returns  true when the archive has it */
export async function changeTruck(context: Context, truck: Truck | null): Promise<boolean> {
  const { client, store } = context;
  const { revision: basedOn } = store.getState().truck;
  const kept = await attempt(context, 'truck', 'The truck was not kept.', () =>
    client.call('truck.change', { basedOn, truck }),
  );
  if (kept === null) {
    await readKit(context);
    return false;
  }
  store.getState().truckArrived(kept);
  return true;
}

/** What of a station's notes becomes another; undefined takes it out. */
export type NotesChange = Partial<Omit<StationNotes, 'format'>>;

/**
 * Changes some of the open station's notes and leaves the others as they are.
 * @returns  true when the archive has them
 */
export async function changeNotes(context: Context, change: NotesChange): Promise<boolean> {
  const { client, store } = context;
  const { notes: stored, sheet } = store.getState();
  if (sheet.at !== 'open' || stored?.stationId !== sheet.sheet.station.id) return false;
  const { stationId, revision: basedOn } = stored;
  const notes: StationNotes = { ...stored.notes, ...change, format: 'tiltwright-station-notes/1' };
  const kept = await attempt(context, 'notes', 'The notes were not kept.', () =>
    client.call('notes.change', { stationId, basedOn, notes }),
  );
  if (kept === null) {
    await refresh(() => client.call('notes.read', { stationId }), store.getState().notesArrived);
    return false;
  }
  store.getState().notesArrived(kept);
  return true;
}

/** After a refusal the page shows what holds now; what went wrong is said already. */
async function refresh<T>(ask: () => Promise<T>, arrived: (kept: T) => void): Promise<void> {
  try {
    arrived(await ask());
  } catch {
    // The notice of the refusal stands; a second one would hide it.
  }
}
