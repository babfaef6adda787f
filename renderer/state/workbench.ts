import type { Client } from '../../core/bridge/client.ts';
import type { Input } from '../../core/bridge/contract.ts';
import type { SimulatedHand } from '../../core/bridge/live-calls.ts';
import type { Change, ProposalNote, Turn } from '../../core/bridge/records.ts';
import type { Settings } from '../../core/bridge/settings-calls.ts';
import type { Station } from '../../core/files/station.ts';
import type { Truck } from '../../core/files/truck.ts';
import { correctSweep, type Said, type SweepCorrection, voidSweep } from './amend-commands.ts';
import {
  type BackupProgress,
  type CheckProgress,
  checkRecords,
  listBackups,
  makeBackup,
} from './backup-commands.ts';
import { careChanged, keepHeld, readCare } from './care-commands.ts';
import { type Context, helpOf } from './context.ts';
import { addStation, type DesignChange, keepDesign } from './design/commands.ts';
import {
  changeNotes,
  changeSettings,
  changeTruck,
  type NotesChange,
  readKept,
  readKit,
} from './kept-commands.ts';
import { letNewsGo } from './let-go.ts';
import { createLevelFeed, type LevelFeed } from './level-feed.ts';
import { findLive, startLive, stopLive } from './live-commands.ts';
import type { LiveFeed } from './live-feed.ts';
import type { LivePlan } from './live-slice.ts';
import { createConnecting, findPorts, putMeterAway, renewPorts } from './meter-commands.ts';
import { createMeterDesk } from './meter-desk.ts';
import {
  closeRecords,
  compareTwo,
  openHistory,
  openRecords,
  openSweepOf,
  readPeriod,
} from './quality-commands.ts';
import { makeReport, type ReportOrder, type ReportProgress } from './report-commands.ts';
import { searchRecords } from './search-commands.ts';
import {
  abandonSetUp,
  beginSetUp,
  listSetUps,
  moveHand,
  openSetUp,
  readModule,
  recordStep,
  type SetUpStart,
  type StepRecord,
} from './set-up-commands.ts';
import { readCascade } from './span-commands.ts';
import {
  exportStation,
  importStation,
  leaveStation,
  listStations,
  loadDemo,
  openStation,
  renewSheet,
} from './station-commands.ts';
import type { Store } from './store.ts';
import {
  chooseSweep,
  exportSweep,
  importSweep,
  originalFile,
  pauseSweep,
  type SweepFile,
  type SweepOrder,
  startSweep,
  stopSweep,
} from './sweep-commands.ts';
import {
  type GiveOrder,
  giveRecords,
  lookAtTransfer,
  type TransferProgress,
  takeFile,
  takeFolder,
} from './transfer-commands.ts';
import { beginVisit, endVisit, fitParts, turnTrims, type VisitStart } from './visit-commands.ts';
import { noteTemperature, openWatch, startWatch, stopWatch } from './watch-commands.ts';

/** What is done about a port that was plugged in just now. */
const waitingWords = (why: string | null, leftMs: number | null): string =>
  `The port was plugged in just now: ${why ?? 'it is not ready'}. It is tried again, for ${Math.ceil((leftMs ?? 0) / 1000)} s at most.`;

/** Joins the bridge to the store: listens to every event, and gives the screens what they can ask for. */
export function createWorkbench(
  client: Client,
  store: Store,
  feed: LiveFeed,
  levels: LevelFeed = createLevelFeed(
    (callback) => setTimeout(callback, 16),
    () => performance.now(),
  ),
) {
  const context: Context = { client, store, feed };
  const state = () => store.getState();

  async function arrive(): Promise<void> {
    try {
      const host = await client.call('host.describe', {});
      state().linkBecame({
        at: 'open',
        version: host.version,
        archivePath: host.archivePath,
        profiles: host.profiles,
      });
      await readKept(context);
      const recovered = host.recoveredSweeps.reduce((sum, sweep) => sum + sweep.readingCount, 0);
      if (host.recoveredSweeps.length > 0)
        state().noticed({
          tone: 'news',
          text: 'The last reading was cut short when the program stopped.',
          help: `All ${recovered} readings taken until then are kept, marked partial.`,
        });
      const { meter } = await client.call('meters.current', {});
      if (meter !== null) state().meterConnected(meter);
      await listStations(context);
      await findLive(context, levels);
      await readCare(context);
    } catch (fault) {
      state().stationsFailed(helpOf(fault));
    }
  }

  function listen(): () => void {
    const stops = [
      client.on('sweep.reading', (event) => feed.arrived(event)),
      client.on('sweep.ended', (ended) => {
        state().runEnded(ended);
        const { sheet } = state();
        if (sheet.at === 'open' && sheet.sheet.station.id === ended.stationId)
          void renewSheet(context, ended.stationId);
        else void listStations(context);
      }),
      letNewsGo(store),
      client.on('meter.link', ({ link, why, leftMs }) => {
        if (link === 'waiting') state().meterWaits(waitingWords(why, leftMs));
        else
          state().runHeld(
            link === 'looking' ? { by: 'link', why: why ?? 'it does not answer' } : { by: 'nothing' },
          );
      }),
      client.on('care.changed', (care) => void careChanged(context, care)),
      client.on('live.reading', (event) => levels.arrived(event)),
      client.on('watch.round', ({ watchId, round }) => state().watchRoundCame(watchId, round)),
      client.on('watch.ended', ({ watch }) => state().watchChanged(watch)),
      client.on('live.ended', ({ liveId, reason }) => state().liveEnded(liveId, reason)),
      client.on('settings.changed', (kept) => {
        state().settingsArrived(kept);
        if (state().sheet.at === 'none') void listStations(context);
      }),
      client.on('truck.changed', (kept) => state().truckArrived(kept)),
      client.on('notes.changed', (kept) => {
        if (state().notes?.stationId === kept.stationId) state().notesArrived(kept);
      }),
      client.on('meter.changed', ({ meter, lost }) => {
        if (meter === null) state().meterGone(lost);
        else state().meterConnected(meter);
      }),
      client.connection.onState((at, why) => {
        if (at === 'closed') state().linkBecame({ at: 'closed', why });
      }),
    ];
    return () => {
      for (const stop of stops) stop();
    };
  }

  return {
    arrive,
    listen,
    levels,
    loadDemo: () => loadDemo(context),
    importStation: (fileName: string, text: string) => importStation(context, fileName, text),
    exportStation: (stationId: string) => exportStation(context, stationId),
    openStation: (stationId: string) => openStation(context, stationId),
    leaveStation: async () => {
      await stopLive(context, levels);
      state().placeChosen('station');
      state().seasonModeChosen(null);
      state().reachChosen('set-up');
      await leaveStation(context);
    },
    openRecords: () => openRecords(context),
    closeRecords: () => closeRecords(context),
    openHistory: (stationId: string, portName: string | null) => openHistory(context, stationId, portName),
    compareTwo: (pair: readonly [string, string] | null) => compareTwo(context, pair),
    openSweepOf: (stationId: string, portName: string, sweepId: string) =>
      openSweepOf(context, stationId, portName, sweepId),
    searchRecords: (text: string, now: string) => searchRecords(context, text, now),
    listBackups: () => listBackups(context),
    makeBackup: (folder: string | null, told: (progress: BackupProgress) => void) =>
      makeBackup(context, folder, told),
    checkRecords: (signal: AbortSignal, told: (progress: CheckProgress) => void) =>
      checkRecords(context, signal, told),
    keepHeld: () => keepHeld(context),
    openTransfer: () => state().recordsWent('transfer'),
    closeTransfer: async () => {
      state().recordsWent('closed');
      // What came in is in the list of stations.
      await listStations(context);
    },
    lookAtTransfer: () => lookAtTransfer(context),
    giveRecords: (order: GiveOrder, signal: AbortSignal, told: (progress: TransferProgress) => void) =>
      giveRecords(context, order, signal, told),
    takeFolder: (folder: string, signal: AbortSignal, told: (progress: TransferProgress) => void) =>
      takeFolder(context, folder, signal, told),
    takeFile: (file: File, signal: AbortSignal, told: (progress: TransferProgress) => void) =>
      takeFile(context, file, signal, told),
    readPeriod: (fromDay: string, toDay: string) => readPeriod(context, fromDay, toDay),
    findPorts: () => findPorts(context),
    renewPorts: () => renewPorts(context),
    ...createConnecting(context),
    putMeterAway: () => putMeterAway(context),
    meterDesk: createMeterDesk(context),
    beginVisit: (start: VisitStart) => beginVisit(context, start),
    endVisit: (note: string) => endVisit(context, note),
    fitParts: (changes: readonly Change[], proposal: ProposalNote | null) =>
      fitParts(context, changes, proposal),
    turnTrims: (sweepId: string, turns: readonly Turn[]) => turnTrims(context, sweepId, turns),
    startSweep: async (order: SweepOrder) => {
      // The meter listens to one thing at a time.
      await stopLive(context, levels);
      await startSweep(context, order);
    },
    pauseSweep: (paused: boolean) => pauseSweep(context, paused),
    stopSweep: () => stopSweep(context),
    changeSettings: (settings: Settings) => changeSettings(context, settings),
    readKit: () => readKit(context),
    changeTruck: (truck: Truck | null) => changeTruck(context, truck),
    changeNotes: (change: NotesChange) => changeNotes(context, change),
    readCascade: (stationId: string) => readCascade(context, stationId),
    chooseSweep: (sweepId: string) => chooseSweep(context, sweepId),
    importSweep: (file: SweepFile) => importSweep(context, file),
    voidSweep: (said: Said) => voidSweep(context, said),
    correctSweep: (correction: SweepCorrection) => correctSweep(context, correction),
    exportSweep: (sweepId: string) => exportSweep(context, sweepId),
    originalFile: (sweepId: string) => originalFile(context, sweepId),
    addStation: (station: Station) => addStation(context, station),
    keepDesign: (change: DesignChange) => keepDesign(context, change),
    makeReport: (order: ReportOrder, signal: AbortSignal, onProgress: ReportProgress) =>
      makeReport(context, order, signal, onProgress),
    listSetUps: (stationId: string) => listSetUps(context, stationId),
    openSetUp: (visitId: string) => openSetUp(context, visitId),
    beginSetUp: (start: SetUpStart) => beginSetUp(context, start),
    recordStep: (record: StepRecord) => recordStep(context, record),
    abandonSetUp: (reason: string) => abandonSetUp(context, reason),
    moveHand: (stationId: string, hand: SimulatedHand) => moveHand(context, stationId, hand),
    readModule: (stationId: string) => readModule(context, stationId),
    openWatch: (stationId: string, watchId: string | null = null) => openWatch(context, stationId, watchId),
    startWatch: (start: Input<'watch.start'>) => startWatch(context, start),
    stopWatch: (watchId: string) => stopWatch(context, watchId),
    noteTemperature: (stationId: string, watchId: string, ambientC: number) =>
      noteTemperature(context, stationId, watchId, ambientC),
    startLive: (plan: LivePlan) => startLive(context, levels, plan),
    stopLive: () => stopLive(context, levels),
  };
}

export type Workbench = ReturnType<typeof createWorkbench>;
