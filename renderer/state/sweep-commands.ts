import type { Purpose } from '../../core/bridge/records.ts';
import type { Encoding } from '../../core/files/encoding.ts';
import type { Told } from '../../core/files/sweep-csv.ts';
import { attempt, type Context, helpOf } from './context.ts';
import { fetchSweeps, renewSheet } from './station-commands.ts';
import { openVisitId } from './visit-commands.ts';

export type SweepOrder = Readonly<{ portName: string; purpose: Purpose; frequenciesMhz: readonly number[] }>;

export async function startSweep(context: Context, order: SweepOrder): Promise<void> {
  const { client, store, feed } = context;
  const { sheet, repeats } = store.getState();
  const visitId = openVisitId(context);
  if (sheet.at !== 'open' || visitId === null) return;
  const frequenciesMhz = [...order.frequenciesMhz].sort((a, b) => a - b);
  feed.expect();
  store.getState().sweepChosen(null);
  store.getState().noticed(null);
  store.getState().runStarting({
    stationId: sheet.sheet.station.id,
    portName: order.portName,
    purpose: order.purpose,
    plannedCount: frequenciesMhz.length,
    lowMhz: frequenciesMhz[0] ?? 0,
    highMhz: frequenciesMhz.at(-1) ?? 0,
    repeats,
  });
  try {
    const { sweepId } = await client.call('sweeps.start', {
      visitId,
      portName: order.portName,
      purpose: order.purpose,
      frequenciesMhz,
      repeats,
    });
    feed.bind(sweepId);
    store.getState().runStarted(sweepId);
    await endIfOver(context, sweepId);
  } catch (fault) {
    store.getState().runForgotten();
    store.getState().noticed({ tone: 'problem', text: 'The reading was not started.', help: helpOf(fault) });
  }
}

/** A sweep of few channels may end before the page knows its id; then its end has already gone by. */
async function endIfOver(context: Context, sweepId: string): Promise<void> {
  const { client, store } = context;
  const { summary } = await client.call('sweeps.open', { sweepId });
  if (summary.state === 'recording') return;
  store.getState().runEnded({
    sweepId,
    stationId: summary.stationId,
    state: summary.state,
    readingCount: summary.readingCount,
    reason: summary.endReason,
  });
  await renewSheet(context, summary.stationId);
}

export async function stopSweep(context: Context): Promise<void> {
  const { run, runStopping } = context.store.getState();
  if (run.at !== 'running') return;
  runStopping();
  await attempt(context, 'stop', 'The reading did not stop.', () =>
    context.client.call('sweeps.stop', { sweepId: run.sweepId }),
  );
}

/** Lets the running sweep rest before its next reading, or go on. */
export async function pauseSweep(context: Context, paused: boolean): Promise<void> {
  const { run } = context.store.getState();
  if (run.at !== 'running') return;
  const done = await attempt(context, 'pause', 'The reading did not pause.', () =>
    context.client.call('sweeps.pause', { sweepId: run.sweepId, paused }),
  );
  if (done !== null) context.store.getState().runHeld({ by: paused ? 'hand' : 'nothing' });
}

export async function chooseSweep(context: Context, sweepId: string): Promise<void> {
  const { run, runForgotten, sweepChosen } = context.store.getState();
  if (run.at === 'cut-short') runForgotten();
  sweepChosen(sweepId);
  await attempt(context, 'sweep', 'That sweep could not be opened.', () => fetchSweeps(context, [sweepId]));
}

export type SweepFile = Readonly<{
  fileName: string;
  text: string;
  encoding?: Encoding;
  testPointLossDb: number;
  purpose: Purpose;
  told?: Told;
}>;

/** @returns true once it is in the archive; what went wrong is said by the notice */
export async function importSweep(context: Context, file: SweepFile): Promise<boolean> {
  const { client, store } = context;
  const { sheet } = store.getState();
  const visitId = openVisitId(context);
  if (sheet.at !== 'open' || visitId === null) return false;
  const taken = await attempt(context, 'import-sweep', `${file.fileName} was not taken in.`, () =>
    client.call('sweeps.import', { visitId, portName: sheet.portName, ...file }),
  );
  if (taken === null) return false;
  store.getState().dialogDone('import-sweep');
  const first = taken.left[0];
  if (first !== undefined)
    store.getState().noticed({
      tone: 'news',
      text: `${taken.left.length} ${taken.left.length === 1 ? 'row' : 'rows'} of ${file.fileName} left out.`,
      help: `Line ${first.line}: ${first.reason}`,
    });
  store.getState().sweepChosen(null);
  await renewSheet(context, sheet.sheet.station.id);
  return true;
}

/** @returns  the file that it was taken from, byte by byte, or null after a fault or where there is none */
export const originalFile = (context: Context, sweepId: string) =>
  attempt(context, 'export', 'Its file was not saved.', () =>
    context.client.call('sweeps.original', { sweepId }),
  );

/** @returns  the file to save, or null after a fault */
export const exportSweep = (context: Context, sweepId: string) =>
  attempt(context, 'export', 'The sweep was not exported.', () =>
    context.client.call('sweeps.export', { sweepId }),
  );
