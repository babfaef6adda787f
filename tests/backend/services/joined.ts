import { setImmediate as turn } from 'node:timers/promises';
import { Refused } from '../../../core/bridge/refused.ts';
import type { Ballast } from '../../../electron/backend/archive/ballast.ts';
import type { Archive } from '../../../electron/backend/archive/open.ts';
import type { GainControlOptions } from '../../../electron/backend/gain-control-handlers.ts';
import { createHandlers } from '../../../electron/backend/handlers.ts';
import type { ServiceParts } from '../../../electron/backend/services/service-parts.ts';
import { type Sent, stationFile, type TestParts, testParts } from '../../support/archive.ts';
import { createFakeMeterShop, type FakeMeter, type FakeMeterScript } from '../../support/fake-meter.ts';

const signal = new AbortController().signal;

/** All services over a real archive, with one station, an open visit and a scripted meter connected. */
export async function joined(
  options: Readonly<{
    script?: Partial<FakeMeterScript>;
    archive?: (archive: Archive) => Archive;
    folder?: string;
    ballast?: Ballast;
    /** For a folder in which ids were given out before. */
    newId?: () => string;
    gainControl?: Omit<GainControlOptions, keyof ServiceParts>;
  }> = {},
) {
  const made = testParts(options.folder, options.ballast);
  const parts: TestParts = { ...made, newId: options.newId ?? made.newId };
  const shop = createFakeMeterShop({ now: parts.clock.now, ...options.script });
  const archive = options.archive?.(parts.archive) ?? parts.archive;
  const { handlers, sleep, close } = createHandlers({
    ...parts,
    ...options.gainControl,
    archive,
    shop,
    host: 'memory',
    version: '0',
  });
  await handlers['stations.import']({ fileName: 's.json', text: stationFile() }, signal);
  const begin = () =>
    handlers['visits.begin'](
      { stationId: 'slipway', operator: '', ambientC: null, cautionsRead: true },
      signal,
    );
  const visit = await begin();
  await handlers['meters.connect']({ kind: 'simulated' }, signal);
  const meter = (): FakeMeter => {
    const found = shop.connected.at(-1);
    if (found === undefined) throw new Error('no meter');
    return found;
  };
  const start = async (count = 6, portName = 'forward output'): Promise<string> => {
    // So many that they would leave the band in steps of 6 MHz stand closer.
    const stepMhz = count > 400 ? 1 : 6;
    const frequenciesMhz = Array.from({ length: count }, (_, i) => 54 + i * stepMhz);
    const { sweepId } = await handlers['sweeps.start'](
      { visitId: visit.visitId, portName, purpose: 'as-found', frequenciesMhz },
      signal,
    );
    return sweepId;
  };
  const until = async <T>(found: () => T | undefined | false): Promise<T> => {
    for (;;) {
      const value = found();
      if (value !== undefined && value !== false) return value;
      await turn();
    }
  };
  const endOf = (sweepId: string) =>
    until(() => {
      const end = parts.sent.find(
        (event): event is Extract<Sent, { name: 'sweep.ended' }> =>
          event.name === 'sweep.ended' && event.data.sweepId === sweepId,
      );
      return end?.data;
    });
  const readCount = () => parts.sent.filter(({ name }) => name === 'sweep.reading').length;
  const open = (sweepId: string) => handlers['sweeps.open']({ sweepId }, signal);
  const sheet = () => handlers['stations.open']({ stationId: 'slipway' }, signal);
  return {
    ...parts,
    archive,
    handlers,
    sleep,
    close,
    visit,
    begin,
    shop,
    meter,
    start,
    until,
    endOf,
    readCount,
    open,
    sheet,
    signal,
  };
}

/** The refusal that a call ends with. */
export async function refusalOf(
  work: () => Promise<unknown>,
): Promise<Readonly<{ code: string; where: string; help: string }>> {
  try {
    await work();
  } catch (fault) {
    if (fault instanceof Refused) return fault.refusal;
    throw fault;
  }
  throw new Error('it was not refused');
}
