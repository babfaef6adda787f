import { dirname } from 'node:path';
import type { Handlers } from '../../core/bridge/contract.ts';
import { joinArchive } from './archive-handlers.ts';
import type { HostKind } from './backend.ts';
import { type GainControlOptions, joinGainControl } from './gain-control-handlers.ts';
import { knownProfiles } from './meters/known-profiles.ts';
import type { MeterShop } from './meters/meter-shop.ts';
import { profileFolder } from './meters/profile-folder.ts';
import { joinQuality } from './quality-handlers.ts';
import { joinReports } from './report-handlers.ts';
import { joinSearch } from './search-handlers.ts';
import { createBackups } from './services/backups.ts';
import { type CareService, createCare } from './services/care.ts';
import { createCascade } from './services/cascade.ts';
import { createDemo } from './services/demo.ts';
import { createDesigns } from './services/designs.ts';
import { createLookAhead } from './services/look-ahead.ts';
import { createMeters } from './services/meters.ts';
import { createParts } from './services/parts.ts';
import { createProfiles } from './services/profiles.ts';
import { createQuality } from './services/quality.ts';
import { createRuns } from './services/runs.ts';
import { createSetUps } from './services/set-up.ts';
import { createSettings } from './services/settings.ts';
import type { Sleep } from './services/sleep.ts';
import { createStandings } from './services/standing.ts';
import { createStations } from './services/stations.ts';
import { createSweeps } from './services/sweeps.ts';
import { createTrims } from './services/trims.ts';
import { createVisits } from './services/visits.ts';
import { joinTransfer } from './transfer-handlers.ts';

export type HandlerOptions = GainControlOptions &
  Readonly<{ shop: MeterShop; host: HostKind; version: string }>;

/**
 * Joins every call of the bridge to its service; the only place where services meet.
 * @returns  the handlers, what begins by itself once the host is up, and the way to end what runs: the sweep first, then
 *           the meter's link
 */
export function createHandlers(
  options: HandlerOptions,
): Readonly<{ handlers: Handlers; sleep: Sleep; care: Pick<CareService, 'begin'>; close(): Promise<void> }> {
  const { archive, shop, host, version } = options;
  const designs = createDesigns(archive);
  const settings = createSettings(options, designs);
  const runs = createRuns(options);
  const meters = createMeters(options, shop, runs);
  const stations = createStations(options, designs, createStandings(archive, designs, settings), runs);
  const visits = createVisits(options, designs, runs);
  const quality = createQuality(archive, designs, settings, createSetUps(options, designs, visits));
  const lookAhead = createLookAhead(options, quality, runs);
  const sweeps = createSweeps(options, designs, visits, meters, runs);
  const parts = createParts(options, designs, visits, runs, settings);
  const trims = createTrims(options, designs, visits, runs, settings);
  const demo = createDemo(options, designs, stations, settings);
  const cascade = createCascade(archive, designs, settings, runs);
  const shippedNames = knownProfiles.map(({ name }) => name);
  const profiles = createProfiles(shop, profileFolder(dirname(archive.path), shippedNames), meters);
  const backups = createBackups(options, runs);
  const care = createCare(options, designs, runs);
  const gainControl = joinGainControl(options, { designs, visits, meters, runs });

  const handlers: Handlers = {
    'host.describe': async () => ({
      version,
      host,
      archivePath: archive.path,
      recoveredSweeps: archive.recovered.map(({ sweepId, stationId, readingCount }) => ({
        sweepId,
        stationId,
        readingCount,
      })),
      profiles: shop.profiles().map(({ name, title }) => ({ name, title })),
    }),
    'demo.load': async () => demo.load(),

    'stations.list': (input, signal) => stations.list(input, signal),
    'stations.import': async (input) => stations.import(input),
    'stations.open': async (input) => stations.open(input),
    'stations.export': async (input) => stations.export(input),

    'visits.begin': async (input) => visits.begin(input),
    'visits.end': async (input) => {
      await gainControl.visitEnds(input.visitId);
      return visits.end(input);
    },

    'meters.find': () => meters.find(),
    'meters.connect': async (input, signal) => {
      await gainControl.freeMeter();
      return await meters.connect(input, signal);
    },
    'meters.disconnect': async () => {
      await gainControl.mayPutMeterAway();
      await meters.disconnect();
      return {};
    },
    'meters.current': async () => ({ meter: meters.current() }),
    'meters.last': () => meters.last(),
    'meters.health': async () => meters.health(),
    'meters.calibration': (input) => meters.noteCalibration(input),
    'profiles.list': async () => profiles.list(),
    'profiles.read': async (input) => profiles.read(input),
    'profiles.save': async (input) => profiles.save(input),
    'profiles.check': async (input, signal) => {
      await gainControl.mayPutMeterAway();
      return await profiles.check(input, signal);
    },

    // A sweep belongs to the archive: it goes on when the page that asked for it is closed or reloaded.
    'sweeps.start': async (input) => {
      await gainControl.freeMeter();
      return sweeps.start(input);
    },
    'sweeps.stop': async (input) => {
      await sweeps.stop(input);
      return {};
    },
    'sweeps.pause': async (input) => {
      sweeps.pause(input);
      return {};
    },
    'sweeps.reread': (input) => sweeps.reread(input),
    'sweeps.open': async (input) => sweeps.open(input),
    'sweeps.import': async (input) => sweeps.import(input),
    'sweeps.export': async (input) => sweeps.export(input),
    'sweeps.original': async (input) => sweeps.original(input),

    'parts.fit': async (input) => {
      const fitted = parts.fit(input);
      gainControl.stationChanged(visits.openVisit(input.visitId).stationId);
      return fitted;
    },
    'trims.turn': async (input) => trims.turn(input),

    'settings.read': async () => settings.read(),
    'settings.change': async (input) => settings.change(input),
    'notes.read': async ({ stationId }) => settings.readNotes(stationId),
    'notes.change': async (input) => settings.changeNotes(input),
    'cascade.read': async (input) => cascade.read(input),
    'truck.read': async () => settings.truckWithKit(),
    'truck.change': async (input) => settings.changeTruck(input),

    ...joinArchive(options, { designs, runs }),
    ...joinQuality(quality),
    ...joinSearch(archive),
    ...joinTransfer(options, runs),
    'care.read': async () => care.read(),
    'care.keep': async () => care.keep(),
    'backups.list': async () => backups.list(),
    'backups.make': ({ folder }, signal) => backups.make(folder, signal),
    ...joinReports(options, { designs, settings, runs, quality }),
    ...gainControl.handlers,
  };
  return {
    handlers,
    sleep: gainControl.sleep,
    care: { begin: care.begin },
    async close() {
      await lookAhead.close();
      await backups.close();
      await care.close();
      await gainControl.close();
      await runs.close();
      await meters.close();
    },
  };
}
