import type { Care } from '../../core/bridge/care-calls.ts';
import { capital } from '../format.ts';
import { attempt, type Context } from './context.ts';
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

/** Tries once more to write what the disk refused; the host tells of what it took. */
export async function keepHeld(context: Context): Promise<void> {
  const care = await attempt(context, 'care', 'The disk takes no more yet.', () =>
    context.client.call('care.keep', {}),
  );
  if (care !== null) await careChanged(context, care);
}
