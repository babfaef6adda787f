import type { Input, Output } from '../../../core/bridge/contract.ts';
import {
  type ConnectedMeter,
  type FoundPort,
  MeterChoice,
  MeterIdentity,
} from '../../../core/bridge/records.ts';
import { momentOf, msOf, orderedJson } from '../archive/quantities.ts';
import { placesOf } from '../meters/adapters.ts';
import { type Meter, MeterFault, type MeterShop } from '../meters/meter-shop.ts';
import type { Runs } from './runs.ts';
import { refused, type ServiceParts } from './service-parts.ts';

export type Meters = Readonly<{
  find(): Promise<Output<'meters.find'>>;
  connect(choice: Input<'meters.connect'>, signal: AbortSignal): Promise<ConnectedMeter>;
  disconnect(): Promise<void>;
  current(): ConnectedMeter | null;
  last(): Promise<Output<'meters.last'>>;
  health(): Output<'meters.health'>;
  /** @throws Refused when none is connected, or nothing tells it from others */
  noteCalibration(input: Input<'meters.calibration'>): Promise<ConnectedMeter>;
  /** The meter in use. @throws Refused when none is connected */
  inUse(): Meter;
  close(): Promise<void>;
}>;

const adapterAt = (ports: readonly FoundPort[], path: string): string | null =>
  ports.find((port) => port.path === path)?.adapter ?? null;

/** The one meter in use: connected, put away, lost. */
export function createMeters({ archive, emit, now, log }: ServiceParts, shop: MeterShop, runs: Runs): Meters {
  let inUse: Readonly<{ meter: Meter; connected: ConnectedMeter }> | null = null;
  let busy = false;

  /** One at a time, and never under a running sweep. */
  const alone = async <T>(work: () => Promise<T>): Promise<T> => {
    if (runs.running() !== null)
      throw refused('sweep-running', 'meter', 'a sweep is running; let it end or stop it first');
    if (busy)
      throw refused('meter-busy', 'meter', 'another meter is being connected; wait until it has answered');
    busy = true;
    try {
      return await work();
    } finally {
      busy = false;
    }
  };
  /** @returns  true when there was one */
  const putAway = async (): Promise<boolean> => {
    if (inUse === null) return false;
    const { meter } = inUse;
    inUse = null;
    await meter.close();
    return true;
  };
  /** An adapter is where its number is, whatever the name; a port without one, and a typed path, where they were. */
  const choiceNow = async (choice: MeterChoice, adapter: string | null): Promise<MeterChoice | null> => {
    if (choice.kind === 'simulated' || adapter === null) return choice;
    const [path] = placesOf(adapter, choice.path, await shop.find());
    return path === undefined ? null : { ...choice, path };
  };
  const watch = (meter: Meter): void => {
    void meter.lost
      .then(({ help }) => {
        if (inUse?.meter !== meter) return;
        inUse = null;
        log.warn({ help }, 'meter lost');
        emit('meter.changed', { meter: null, lost: help });
        return meter.close();
      })
      .catch((fault: unknown) => log.error({ err: fault }, 'a lost meter could not be put away'));
  };

  const adapterOf = async (choice: MeterChoice): Promise<string | null> =>
    choice.kind === 'serial' ? adapterAt((await shop.find()).ports, choice.path) : null;
  /** With what was noted of its sticker: by its serial number, and where it tells none, by its adapter. */
  const withSticker = async (choice: MeterChoice, identity: MeterIdentity): Promise<MeterIdentity> => {
    const adapter = identity.serialNumber === '' ? await adapterOf(choice) : null;
    if (identity.serialNumber === '' && adapter === null) return identity;
    const dueOn = archive.meterLinks.calibrationDueOn({ ...identity, adapter });
    return dueOn === null ? identity : { ...identity, calibrationDueOn: dueOn };
  };

  /** Noted once its adapter is known; a meter that can't be noted is used all the same. */
  const remember = async ({ choice, identity, connectedAt }: ConnectedMeter): Promise<void> => {
    try {
      const adapter = await adapterOf(choice);
      archive.write(() =>
        archive.meterLinks.addUse({
          choice: JSON.stringify(choice),
          identity: orderedJson(identity),
          adapter,
          connectedAtMs: msOf(connectedAt),
        }),
      );
    } catch (fault) {
      log.warn({ fault: String(fault) }, 'the meter in use could not be noted');
    }
  };

  return {
    async last() {
      const use = archive.meterLinks.lastUse();
      if (use === undefined) return { last: null };
      const choice = MeterChoice.parse(JSON.parse(use.choice));
      const now = await choiceNow(choice, use.adapter);
      return {
        last: {
          choice,
          identity: MeterIdentity.parse(JSON.parse(use.identity)),
          connectedAt: momentOf(use.connectedAtMs),
          now,
          moved: choice.kind === 'serial' && now?.kind === 'serial' && now.path !== choice.path,
        },
      };
    },
    health: () => shop.health(),
    async noteCalibration({ dueOn }) {
      const held = inUse;
      if (held === null) throw refused('no-meter', 'meter', 'connect the meter first, then type its date');
      const { choice, connectedAt } = held.connected;
      const { identity } = held.meter;
      const adapter = await adapterOf(choice);
      if (identity.serialNumber === '' && adapter === null)
        throw refused(
          'which-meter',
          'meter',
          'neither the meter nor its adapter has a number that tells it from others; its date can not be kept',
        );
      archive.write(() =>
        archive.meterLinks.addCalibration({ ...identity, adapter, dueOn, notedAtMs: now().getTime() }),
      );
      const sticker = dueOn === null ? {} : { calibrationDueOn: dueOn };
      const connected = { choice, identity: { ...identity, ...sticker }, connectedAt };
      if (inUse === held) {
        inUse = { meter: held.meter, connected };
        emit('meter.changed', { meter: connected, lost: null });
      }
      return connected;
    },
    async find() {
      const { ports, problem } = await shop.find();
      return { ports: [...ports], problem };
    },
    connect: (choice, signal) =>
      alone(async () => {
        const hadOne = await putAway();
        try {
          const meter = await shop.connect(choice, signal);
          const identity = await withSticker(choice, meter.identity);
          const connected = { choice, identity, connectedAt: now().toISOString() };
          inUse = { meter, connected };
          watch(meter);
          void remember(connected);
          log.info({ choice, identity }, 'meter connected');
          emit('meter.changed', { meter: connected, lost: null });
          return connected;
        } catch (fault) {
          if (hadOne) emit('meter.changed', { meter: null, lost: null });
          if (!(fault instanceof MeterFault)) throw fault;
          log.warn({ choice, code: fault.code, help: fault.help }, 'meter not connected');
          throw refused(fault.code, fault.where, fault.help);
        }
      }),
    disconnect: () =>
      alone(async () => {
        if (await putAway()) emit('meter.changed', { meter: null, lost: null });
      }),
    current: () => inUse?.connected ?? null,
    inUse() {
      if (inUse === null)
        throw refused('no-meter', 'meter', 'connect a meter first; the simulated one is always there');
      return inUse.meter;
    },
    async close() {
      await putAway();
    },
  };
}
