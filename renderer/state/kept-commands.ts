import type { Settings } from '../../core/bridge/settings-calls.ts';
import type { StationNotes } from '../../core/files/station-notes.ts';
import type { Truck } from '../../core/files/truck.ts';
import { attempt, type Context, helpOf } from './context.ts';
import { offerBack } from './undo-kept.ts';

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
  const { revision: basedOn, settings: before } = store.getState().settings;
  const kept = await attempt(context, 'settings', 'The settings were not kept.', () =>
    client.call('settings.change', { basedOn, settings }),
  );
  if (kept === null) {
    await refresh(() => client.call('settings.read', {}), store.getState().settingsArrived);
    return false;
  }
  store.getState().settingsArrived(kept);
  // A unit is put back by one press where it was changed; numbers that were typed over are not.
  if (numbersOf(before) !== numbersOf(settings))
    offerBack(context, {
      text: 'The numbers are kept.',
      revision: kept.revision,
      newest: () => store.getState().settings.revision,
      back: () => changeSettings(context, { ...store.getState().settings.settings, ...typedOf(before) }),
    });
  return true;
}

const typedOf = ({ meter, sheets, visitEveryMonths }: Settings) => ({ meter, sheets, visitEveryMonths });
const numbersOf = (settings: Settings): string => JSON.stringify(typedOf(settings));

/** @returns  true when the archive has it */
export async function changeTruck(context: Context, truck: Truck | null): Promise<boolean> {
  const { client, store } = context;
  const { revision: basedOn, truck: before } = store.getState().truck;
  const kept = await attempt(context, 'truck', 'The truck was not kept.', () =>
    client.call('truck.change', { basedOn, truck }),
  );
  if (kept === null) {
    await readKit(context);
    return false;
  }
  store.getState().truckArrived(kept);
  offerBack(context, {
    text: truck === null ? 'No count is kept of the truck.' : 'The count of the truck is kept.',
    revision: kept.revision,
    newest: () => store.getState().truck.revision,
    back: () => changeTruck(context, before),
  });
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
  const keys = noteNames.filter(({ key }) => key in change);
  offerBack(context, {
    text: `${keys.map(({ name }) => name).join(' and ') || 'What was noted'} ${keys.length === 1 && keys[0]?.isOne === true ? 'is' : 'are'} kept.`,
    revision: kept.revision,
    newest: () => {
      const { notes: now } = store.getState();
      return now?.stationId === stationId ? now.revision : -1;
    },
    back: () => changeNotes(context, Object.fromEntries(keys.map(({ key }) => [key, stored.notes?.[key]]))),
  });
  return true;
}

const noteNames: readonly Readonly<{ key: keyof NotesChange; name: string; isOne: boolean }>[] = [
  { key: 'lineUp', name: 'The line-up', isOne: true },
  { key: 'trims', name: 'The trims', isOne: false },
  { key: 'meter', name: 'The meter\u2019s numbers for this station', isOne: false },
  { key: 'span', name: 'The span', isOne: true },
  { key: 'amplifier', name: 'The amplifier\u2019s figures', isOne: false },
  { key: 'cascade', name: 'what feeds it', isOne: true },
  { key: 'outOfService', name: 'What is said of its service', isOne: true },
];

/** After a refusal the page shows what holds now; what went wrong is said already. */
async function refresh<T>(ask: () => Promise<T>, arrived: (kept: T) => void): Promise<void> {
  try {
    arrived(await ask());
  } catch {
    // The notice of the refusal stands; a second one would hide it.
  }
}
