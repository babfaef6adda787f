import type { ConnectedMeter, MeterChoice } from '../../../core/bridge/records.ts';
import { Refused } from '../../../core/bridge/refused.ts';
import { pause } from '../meters/patience.ts';
import type { Live } from './live.ts';
import type { Meters } from './meters.ts';
import type { Runs } from './runs.ts';
import type { ServiceParts } from './service-parts.ts';

/** What the computer's own sleep does to whatever is being measured. */
export type Sleep = Readonly<{
  /** Before it sleeps: what runs ends as partial with everything that was read, and the meter's port is closed. */
  suspend(): Promise<void>;
  /** After it woke: the meter is looked for by its adapter, connected and asked who it is. Never rejects. */
  resume(): Promise<void>;
  /** Why nothing may use the meter now; null when the computer is awake. */
  asleep(): string | null;
}>;

export const SLEPT =
  'the computer went to sleep in the middle of it; everything that was read until then is here';
const GOING = 'the computer goes to sleep; the meter is asked for again when it wakes';
const NOT_THERE =
  'its adapter is not plugged in since the computer slept; plug it in and connect the meter again';
const ASLEEP = 'the computer was asleep';

/** An adapter is not there at once (node-serialport #157: no data after a wake-up until the port is opened anew). */
const AFTER_WAKING_MS = 2000;
/** A sleep that was announced and never came: the meter is free again after so long awake. */
const NEVER_CAME_MS = 60_000;

const never = new AbortController().signal;
const wordsOf = (fault: unknown): string => {
  if (fault instanceof Refused) return `${fault.refusal.where}: ${fault.refusal.help}`;
  return fault instanceof Error ? fault.message : String(fault);
};

export type SleepParts = Readonly<{
  meters: Pick<Meters, 'current' | 'connect' | 'disconnect' | 'last'>;
  runs: Pick<Runs, 'running' | 'stop'>;
  live: Pick<Live, 'interrupt'>;
  rest?: ((ms: number, signal: AbortSignal) => Promise<void>) | undefined;
  clock?: (() => number) | undefined;
}>;

export function createSleep({ emit, log }: Pick<ServiceParts, 'emit' | 'log'>, parts: SleepParts): Sleep {
  const { meters, runs, live, rest = pause, clock = () => performance.now() } = parts;
  let sinceMs: number | null = null;
  let held: ConnectedMeter | null = null;
  /** Announcements come in order and are done in order, however fast they follow. */
  let before: Promise<void> = Promise.resolve();
  const inTurn = (task: () => Promise<void>): Promise<void> => {
    before = before.then(task).catch((fault: unknown) => {
      log.error({ err: fault }, 'sleep or waking was not handled to its end');
    });
    return before;
  };
  const lost = (help: string): void => emit('meter.changed', { meter: null, lost: help });

  /** What to connect with now: where its adapter is plugged in, whatever the name of its port. */
  const choiceNow = async (was: ConnectedMeter): Promise<MeterChoice | null> => {
    const { last } = await meters.last();
    const isLast = last !== null && JSON.stringify(last.choice) === JSON.stringify(was.choice);
    return isLast ? last.now : was.choice;
  };

  const connectAgain = async (was: ConnectedMeter): Promise<void> => {
    const choice = await choiceNow(was);
    if (choice === null) return lost(NOT_THERE);
    const { identity } = await meters.connect(choice, never);
    const { maker, model, serialNumber } = identity;
    if (
      maker === was.identity.maker &&
      model === was.identity.model &&
      serialNumber === was.identity.serialNumber
    )
      return;
    await meters.disconnect();
    lost(
      `another meter answers there since the computer slept (${maker} ${model} ${serialNumber}); connect the one that you mean`,
    );
  };

  return {
    asleep: () => (sinceMs !== null && clock() - sinceMs < NEVER_CAME_MS ? ASLEEP : null),
    suspend: () =>
      inTurn(async () => {
        sinceMs = clock();
        const running = runs.running();
        log.info({ sweepId: running?.sweepId ?? null }, 'the computer goes to sleep');
        if (running !== null) await runs.stop(running.sweepId, SLEPT);
        await live.interrupt(SLEPT);
        const inUse = meters.current();
        if (inUse === null) return;
        held = inUse;
        await meters.disconnect();
        lost(GOING);
      }),
    resume: () =>
      inTurn(async () => {
        const was = held;
        held = null;
        log.info({ meter: was?.choice ?? null }, 'the computer woke up');
        if (was !== null) await rest(AFTER_WAKING_MS, never);
        sinceMs = null;
        // Whoever was quicker than this has chosen another one.
        if (was === null || meters.current() !== null) return;
        try {
          await connectAgain(was);
        } catch (fault) {
          if (!(fault instanceof Refused)) throw fault;
          // Somebody is connecting one just now.
          if (fault.refusal.code !== 'meter-busy') lost(wordsOf(fault));
        }
      }),
  };
}
