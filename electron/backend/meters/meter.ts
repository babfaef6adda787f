import { setTimeout as pause } from 'node:timers/promises';
import type { MeterChoice, Reading } from '../../../core/bridge/records.ts';
import type { Greeting } from './handshake.ts';
import type { LineLink } from './line-link.ts';
import { heardByBoth, type LinkMonitor } from './link-health.ts';
import { type HowToRead, type Meter, MeterFault, type Probe } from './meter-shop.ts';
import type { Profile } from './profile.ts';
import { readLevels } from './read-levels.ts';

/** What a meter is made of once it has greeted. */
export type MeterParts = Readonly<{
  choice: MeterChoice;
  where: string;
  link: LineLink;
  profile: Profile;
  greeting: Greeting;
  now: () => Date;
  /** Hears everything, in a sweep and between two. */
  monitor: LinkMonitor;
  moveProbe: (probe: Probe) => void;
}>;

/** Faster than an eye or a hand follows; what a meter could do beyond it would only fill the archive. */
const WATCH_EVERY_MS = 50;

/** Over at once when the signal aborts: being stopped is no fault. */
const rest = (pauseMs: number, signal: AbortSignal): Promise<void> =>
  pause(pauseMs, undefined, { signal }).catch((fault: unknown) => {
    if (!signal.aborted) throw fault;
  });

/** A meter over a line link. Silence ends the session like an unplugged cable: what follows can't be trusted. */
export function createMeter(parts: MeterParts): Meter {
  const { choice, where, link, profile, greeting, now, monitor, moveProbe } = parts;
  const lost = Promise.withResolvers<Readonly<{ help: string }>>();
  let reading = false;
  void link.lost.then((fault) => {
    if (!reading) monitor.broke(fault.help);
    lost.resolve(fault);
  });

  async function* read(
    frequenciesMhz: readonly number[],
    signal: AbortSignal,
    { manner, tape }: HowToRead = {},
  ): AsyncGenerator<Reading, void> {
    if (reading) throw new Error('this meter is reading already; two plans can not share one meter');
    reading = true;
    try {
      tape?.opened(profile, greeting.unit);
      link.listen(heardByBoth(monitor, tape ?? null));
      const ready = { talk: { link, where, signal }, profile, unit: greeting.unit, now };
      for await (const found of readLevels(ready, frequenciesMhz, manner)) {
        monitor.read();
        yield found;
      }
    } catch (fault) {
      if (fault instanceof MeterFault) monitor.broke(fault.help);
      if (fault instanceof MeterFault && fault.code === 'silent') {
        lost.resolve(fault);
        await link.close();
      }
      throw fault;
    } finally {
      link.listen(monitor);
      reading = false;
    }
  }

  /** Each reading is a plan of its own, so that every kind of meter can do it. */
  async function* watch(frequencyMhz: number, signal: AbortSignal): AsyncGenerator<Reading, void> {
    while (!signal.aborted) {
      const askedAtMs = performance.now();
      yield* read([frequencyMhz], signal);
      const leftMs = WATCH_EVERY_MS - (performance.now() - askedAtMs);
      if (leftMs > 0) await rest(leftMs, signal);
    }
  }

  return {
    choice,
    identity: greeting.identity,
    profileName: profile.name,
    moveProbe,
    readLevels: read,
    watchLevel: watch,
    lost: lost.promise,
    close: () => link.close(),
  };
}
