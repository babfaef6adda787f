import type { MeterIdentity, Reading } from '../../../core/bridge/records.ts';
import type { LinkNews } from './link-news.ts';
import { type HowToRead, type Meter, MeterFault, type Probe } from './meter-shop.ts';
import { pause } from './patience.ts';
import { type SleepClocks, watchSleep } from './sleep-watch.ts';

/** How long and how often a lost meter is looked for in the middle of a sweep. */
export type Recovery = Readonly<{ firstMs: number; mostMs: number; withinMs: number; afterSleepMs: number }>;
/** After a loss an adapter needs up to half a minute until its system has let go of it (serialport #1502, #1340). */
export const usualRecovery: Recovery = { firstMs: 200, mostMs: 5000, withinMs: 30_000, afterSleepMs: 2000 };

export type SteadyParts = Readonly<{
  first: Meter;
  /** Opens the link anew and asks who is there. */
  reconnect: (signal: AbortSignal) => Promise<Meter>;
  recovery: Recovery;
  news?: (news: LinkNews) => void;
  rest?: (restMs: number, signal: AbortSignal) => Promise<void>;
  clock?: () => number;
  clocks?: SleepClocks;
}>;

/** So often a meter is connected anew for one and the same reading; then it is not the cable. */
const TIMES_A_READING = 3;
const mayPass = (fault: unknown): fault is MeterFault =>
  fault instanceof MeterFault && ['lost', 'silent', 'not-understood'].includes(fault.code);
const isSameMeter = (a: MeterIdentity, b: MeterIdentity) =>
  a.maker === b.maker && a.model === b.model && a.serialNumber === b.serialNumber;

/**
 * A meter whose sweep goes on where a short fault stopped it. There is one way to lose it, whatever happened: unplugged,
 * silent, nonsense, a sleeping computer. In a sweep it is then looked for, with growing rests, and must be the same one by
 * its serial number; `lost` settles only when that failed, or when it went while nothing was read.
 */
export function createSteadyMeter(parts: SteadyParts): Meter {
  const { first, reconnect, recovery, news = () => undefined } = parts;
  const rest = parts.rest ?? pause;
  const clock = parts.clock ?? (() => performance.now());
  const lost = Promise.withResolvers<Readonly<{ help: string }>>();
  let session = first;
  let usable = true;
  let reading = false;
  let closed = false;
  let slept = false;
  let gone = false;
  let probe: Probe | null = null;

  const follow = (followed: Meter) =>
    void followed.lost.then((why) => {
      if (followed !== session || closed) return;
      usable = false;
      if (!reading) lost.resolve(why);
    });
  follow(first);
  const endWatch = watchSleep(() => {
    if (closed) return;
    slept = true;
    usable = false;
    // Whatever was on its way is not trusted; a sweep goes on with a new session.
    void session.close();
  }, parts.clocks);

  const sameAgain = async (signal: AbortSignal): Promise<Meter> => {
    const found = await reconnect(signal);
    if (isSameMeter(found.identity, first.identity)) return found;
    await found.close();
    const { maker, model, serialNumber } = found.identity;
    throw new MeterFault(
      'port-busy',
      'meter',
      `another meter answers there (${maker} ${model} ${serialNumber}); put the first one back, or connect the other and begin anew`,
    );
  };

  /** A meter that nobody looks for any more is lost, whether the time was up or a hand stopped it. */
  async function recover(why: MeterFault, signal: AbortSignal): Promise<void> {
    try {
      await lookFor(why, signal);
    } catch (end) {
      if (signal.aborted) {
        gone = true;
        lost.resolve(why);
      }
      throw end;
    }
  }

  /** Looks for the meter until it is there or the time is up; then throws what was wrong at first. */
  async function lookFor(why: MeterFault, signal: AbortSignal): Promise<void> {
    const sinceMs = clock();
    news({ link: 'looking', why: why.help });
    await session.close();
    if (slept) await rest(recovery.afterSleepMs, signal);
    slept = false;
    for (let waitMs = recovery.firstMs; ; waitMs = Math.min(waitMs * 2, recovery.mostMs)) {
      const leftMs = recovery.withinMs - (clock() - sinceMs);
      if (leftMs <= 0) break;
      await rest(Math.min(waitMs, leftMs), signal);
      try {
        const found = await sameAgain(signal);
        if (closed) {
          await found.close();
          break;
        }
        session = found;
        usable = true;
        follow(found);
        if (probe !== null) found.moveProbe(probe);
        news({ link: 'back', afterMs: Math.round(clock() - sinceMs) });
        return;
      } catch (fault) {
        if (!(fault instanceof MeterFault)) throw fault;
      }
    }
    gone = true;
    lost.resolve(why);
    throw why;
  }

  async function* read(
    frequenciesMhz: readonly number[],
    signal: AbortSignal,
    how: HowToRead = {},
  ): AsyncGenerator<Reading, void> {
    if (reading) throw new Error('this meter is reading already; two plans can not share one meter');
    reading = true;
    const left = [...frequenciesMhz];
    let times = 0;
    try {
      while (!signal.aborted) {
        try {
          if (!usable) await recover(stale(), signal);
          for await (const found of session.readLevels([...left], signal, how)) {
            left.splice(left.indexOf(found.frequencyMhz), 1);
            times = 0;
            yield found;
          }
          return;
        } catch (fault) {
          if (signal.aborted) return;
          if (!mayPass(fault) || closed || gone) throw fault;
          times += 1;
          if (times > TIMES_A_READING) {
            if (fault.code !== 'not-understood') lost.resolve(fault);
            throw fault;
          }
          await recover(fault, signal).catch((end: unknown) => {
            if (!signal.aborted) throw end;
          });
        }
      }
    } finally {
      reading = false;
    }
  }

  const stale = () =>
    new MeterFault(
      'lost',
      'meter',
      'the meter is gone since the computer slept; check the cable, connect again',
    );

  async function* watch(frequencyMhz: number, signal: AbortSignal): AsyncGenerator<Reading, void> {
    while (!signal.aborted) {
      if (!usable) await recover(stale(), signal);
      yield* session.watchLevel(frequencyMhz, signal);
      if (usable) return;
    }
  }

  return {
    choice: first.choice,
    identity: first.identity,
    profileName: first.profileName,
    moveProbe(moved) {
      probe = moved;
      session.moveProbe(moved);
    },
    readLevels: read,
    watchLevel: watch,
    lost: lost.promise,
    async close() {
      closed = true;
      endWatch();
      await session.close();
    },
  };
}
