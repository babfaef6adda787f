import type { Handlers } from '../../core/bridge/contract.ts';
import type { HostKind } from './backend.ts';
import type { MeterShop } from './meters/meter-shop.ts';
import { createDemo } from './services/demo.ts';
import { createDesigns } from './services/designs.ts';
import { createMeters } from './services/meters.ts';
import { createParts } from './services/parts.ts';
import { createRuns } from './services/runs.ts';
import { refused, type ServiceParts } from './services/service-parts.ts';
import { createStandings } from './services/standing.ts';
import { createStations } from './services/stations.ts';
import { createSweeps } from './services/sweeps.ts';
import { createVisits } from './services/visits.ts';

const notInThisBuild = async (): Promise<never> => {
  throw refused('not-in-this-build', 'this program', 'this is being built; it is not in this version yet');
};

export type HandlerOptions = ServiceParts & Readonly<{ shop: MeterShop; host: HostKind; version: string }>;

/**
 * Joins every call of the bridge to its service; the only place where services meet.
 * @returns  the handlers, and the way to end what runs: the sweep first, then the meter's link
 */
export function createHandlers(
  options: HandlerOptions,
): Readonly<{ handlers: Handlers; close(): Promise<void> }> {
  const { archive, shop, host, version } = options;
  const designs = createDesigns(archive);
  const runs = createRuns(options);
  const meters = createMeters(options, shop, runs);
  const stations = createStations(options, designs, createStandings(archive, designs), runs);
  const visits = createVisits(options, designs, runs);
  const sweeps = createSweeps(options, designs, visits, meters, runs);
  const parts = createParts(options, designs, visits, runs);
  const demo = createDemo(archive, stations);

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

    'stations.list': () => stations.list(),
    'stations.import': async (input) => stations.import(input),
    'stations.open': async (input) => stations.open(input),
    'stations.export': async (input) => stations.export(input),

    'visits.begin': async (input) => visits.begin(input),
    'visits.end': async (input) => visits.end(input),

    'meters.find': () => meters.find(),
    'meters.connect': (input, signal) => meters.connect(input, signal),
    'meters.disconnect': async () => {
      await meters.disconnect();
      return {};
    },
    'meters.current': async () => ({ meter: meters.current() }),

    // A sweep belongs to the archive: it goes on when the page that asked for it is closed or reloaded.
    'sweeps.start': async (input) => sweeps.start(input),
    'sweeps.stop': async (input) => {
      await sweeps.stop(input);
      return {};
    },
    'sweeps.open': async (input) => sweeps.open(input),
    'sweeps.import': async (input) => sweeps.import(input),
    'sweeps.export': async (input) => sweeps.export(input),

    'parts.fit': async (input) => parts.fit(input),

    'live.start': notInThisBuild,
    'live.stop': notInThisBuild,
    'live.current': async () => ({ live: null }),
    'live.open': notInThisBuild,
    'simulate.hand': notInThisBuild,
    'simulate.module': async () => ({ module: null }),
    'set-up.begin': notInThisBuild,
    'set-up.open': async () => ({ setUp: null }),
    'set-up.record': notInThisBuild,
    'set-up.abandon': notInThisBuild,
    'set-up.list': async () => ({ setUps: [] }),
    'watch.start': notInThisBuild,
    'watch.stop': notInThisBuild,
    'watch.temperature': notInThisBuild,
    'watch.current': async () => ({ watch: null }),
    'watch.open': notInThisBuild,
    'watch.list': async () => ({ watches: [] }),
  };
  return {
    handlers,
    async close() {
      await runs.close();
      await meters.close();
    },
  };
}
