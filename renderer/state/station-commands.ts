import { attempt, type Context, helpOf } from './context.ts';
import { readNotes } from './kept-commands.ts';

/** How many sweeps of a station are fetched with their readings when it is opened; older ones when they are chosen. */
const READY_SWEEPS = 14;

/** So many standings are asked for at once while the list is already there: to show some takes the page as long as the judging. */
const JUDGED_TOGETHER = 500;
/** A list that was asked for later makes an earlier one, still being filled, end without a word. */
let lists = 0;

/** Shows the stations at once; where many must be judged anew first, their standings come in while one looks. */
export async function listStations(context: Context): Promise<void> {
  const { client, store } = context;
  const list = ++lists;
  try {
    const { stations, waiting = [] } = await client.call('stations.list', { atOnce: true });
    store.getState().stationsListed(stations, waiting);
    if (waiting.length > 0) void fillStandings(context, waiting, () => list === lists);
  } catch (fault) {
    store.getState().stationsFailed(helpOf(fault));
  }
}

async function fillStandings(
  { client, store }: Context,
  waiting: readonly string[],
  isWanted: () => boolean,
): Promise<void> {
  try {
    for (let from = 0; from < waiting.length; from += JUDGED_TOGETHER) {
      const of = waiting.slice(from, from + JUDGED_TOGETHER);
      const { stations } = await client.call('stations.list', { of });
      if (!isWanted()) return;
      store.getState().stationsJudged(of, stations);
    }
  } catch (fault) {
    if (isWanted())
      store.getState().noticed({
        tone: 'problem',
        text: 'Not every station could be judged.',
        help: helpOf(fault),
      });
  }
}

/** The invented network and its simulated meter, in one go: from here a newcomer only opens a station and reads. */
export async function loadDemo(context: Context): Promise<void> {
  const { client, store } = context;
  await attempt(context, 'demo', 'The demo network could not be loaded.', async () => {
    await client.call('demo.load', {});
    await listStations(context);
    if (store.getState().tour === 'unmet') store.getState().tourBecame('on');
    if (store.getState().meter.at === 'connected') return;
    store.getState().meterConnecting({ kind: 'simulated' });
    store.getState().meterConnected(await client.call('meters.connect', { kind: 'simulated' }));
  });
}

export async function importStation(context: Context, fileName: string, text: string): Promise<void> {
  const { client, store } = context;
  const { stations } = store.getState();
  const taken = await attempt(context, 'import-station', `${fileName} was not taken in.`, () =>
    client.call('stations.import', { fileName, text }),
  );
  if (taken === null) return;
  const known = stations.at === 'listed' && stations.rows.find((row) => row.stationId === taken.stationId);
  await listStations(context);
  await openStation(context, taken.stationId);
  store.getState().noticed({ tone: 'news', ...takenWords(fileName, known || null, taken.revision) });
}

/** A file may bring a station, another design for one, or nothing new; whoever opened it is told which. */
function takenWords(
  fileName: string,
  known: Readonly<{ name: string; revision: number }> | null,
  revision: number,
): Readonly<{ text: string; help: string }> {
  if (known === null) return { text: `${fileName} is in the archive.`, help: '' };
  if (known.revision === revision)
    return { text: `${fileName} says nothing new.`, help: `The design of ${known.name} is the same.` };
  return {
    text: `${fileName} is the new design of ${known.name}.`,
    help: 'What it says is plugged in holds from now on. The sweeps that are there stay.',
  };
}

/** The station's file, for the command line or another program: its newest design, with what is plugged in now. */
export const exportStation = (context: Context, stationId: string) =>
  attempt(context, 'export', 'The file was not saved.', () =>
    context.client.call('stations.export', { stationId }),
  );

/** Reads the sheet again and fetches the readings of its newest sweeps that are not here yet. */
export async function renewSheet(context: Context, stationId: string): Promise<void> {
  const { client, store, feed } = context;
  try {
    const sheet = await client.call('stations.open', { stationId });
    store.getState().sheetArrived(sheet);
    const recording = sheet.sweeps.find((sweep) => sweep.state === 'recording');
    if (recording !== undefined && store.getState().run.at === 'idle') {
      const begun = await client.call('sweeps.open', { sweepId: recording.sweepId });
      if (begun.summary.state === 'recording') {
        const last = begun.readings.at(-1)?.frequencyMhz ?? 0;
        const design = sheet.station.ports.find((port) => port.name === recording.portName)?.design;
        store.getState().runFound(
          {
            stationId,
            portName: recording.portName,
            purpose: recording.purpose,
            plannedCount: recording.plannedCount,
            lowMhz: begun.readings[0]?.frequencyMhz ?? design?.lowMhz ?? last,
            highMhz: Math.max(last, design?.highMhz ?? last),
          },
          recording.sweepId,
        );
        feed.seed(recording.sweepId, begun.readings);
      }
    }
    const finished = sheet.sweeps.filter((sweep) => sweep.state !== 'recording').slice(0, READY_SWEEPS);
    await fetchSweeps(
      context,
      finished.map(({ sweepId }) => sweepId),
    );
  } catch (fault) {
    const { sheet } = store.getState();
    if (sheet.at === 'opening') store.getState().sheetFailed(stationId, helpOf(fault));
    else
      store
        .getState()
        .noticed({ tone: 'problem', text: 'The sheet could not be renewed.', help: helpOf(fault) });
  }
}

export async function openStation(context: Context, stationId: string): Promise<void> {
  const { run, runForgotten, sheetOpening } = context.store.getState();
  if (run.at === 'cut-short') runForgotten();
  sheetOpening(stationId);
  await readNotes(context, stationId);
  await renewSheet(context, stationId);
}

export async function leaveStation(context: Context): Promise<void> {
  context.store.getState().sheetClosed();
  await listStations(context);
}

/** Fetches the sweeps that are not here yet, and shows them at once: one drawing, not one a sweep. */
export async function fetchSweeps({ client, store }: Context, sweepIds: readonly string[]): Promise<void> {
  const { sheet } = store.getState();
  if (sheet.at !== 'open') return;
  const missing = sweepIds.filter((sweepId) => sheet.sweeps[sweepId] === undefined);
  if (missing.length === 0) return;
  store
    .getState()
    .sweepsArrived(await Promise.all(missing.map((sweepId) => client.call('sweeps.open', { sweepId }))));
}
