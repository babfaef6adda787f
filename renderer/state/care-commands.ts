import type { Care } from '../../core/bridge/care-calls.ts';
import { capital } from '../format.ts';
import { type Context, helpOf } from './context.ts';
import { listStations, renewSheet } from './station-commands.ts';

/** Asked for once, when the page arrives; a folder that is no good place for an archive is told then. */
export async function readCare({ client, store }: Context): Promise<void> {
  let care: Care;
  try {
    care = await client.call('care.read', {});
  } catch {
    // The page is as good without it, and each change is told by itself.
    return;
  }
  store.getState().careBecame(care);
  if (care.folderWarning !== null && store.getState().notice === null)
    store.getState().noticed({
      tone: 'problem',
      text: 'The archive is in a place where it can be damaged.',
      help: `${capital(care.folderWarning)}.`,
    });
}

/** What the disk took at last is shown as it is now. */
export async function careChanged(context: Context, care: Care): Promise<void> {
  const { store } = context;
  const before = store.getState().care?.held ?? [];
  store.getState().careBecame(care);
  const settled = before.filter(({ sweepId }) => !care.held.some((held) => held.sweepId === sweepId));
  if (settled.length === 0) return;
  const { run, runForgotten, sheet } = store.getState();
  if (run.at === 'cut-short' && settled.some(({ sweepId }) => sweepId === run.sweepId)) runForgotten();
  const stationId = sheet.at === 'open' ? sheet.sheet.station.id : null;
  if (stationId !== null && settled.some((one) => one.stationId === stationId))
    await renewSheet(context, stationId);
  else if (stationId === null) await listStations(context);
}

/**
 * Tries once more to write what the disk refused; the host tells of what it took.
 * @returns  why the disk takes no more yet, for the bar that says what is held; null once it took it
 */
export async function keepHeld(context: Context): Promise<string | null> {
  const { client, store } = context;
  store.getState().busyWith('care');
  try {
    await careChanged(context, await client.call('care.keep', {}));
    return null;
  } catch (fault) {
    return helpOf(fault);
  } finally {
    if (store.getState().busy === 'care') store.getState().busyWith(null);
  }
}
