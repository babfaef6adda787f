import type { Reading } from '../../../core/bridge/records.ts';
import { askMeter, type Fields, rest, type Talk, tellMeter } from './ask-meter.ts';
import { drainErrors, errorIn, explained, meterError } from './error-queue.ts';
import { MeterFault } from './meter-shop.ts';
import { aboutFrequency } from './placeholders.ts';
import type { LevelUnit, Profile, Question } from './profile.ts';
import { type Manner, plainly, readCarefully } from './read-carefully.ts';
import { readTraces } from './read-traces.ts';
import { levelIn, makesSenseAt } from './sense.ts';

/** A connected meter that has said in which unit it counts. */
export type Ready = Readonly<{ talk: Talk; profile: Profile; unit: LevelUnit; now: () => Date }>;

/**
 * Walks a plan: one reading a frequency, in order, each as it comes. Ends at once when the signal aborts, whatever
 * the meter is doing. `manner` says how often and how carefully. Throws `MeterFault`; what was read before it has been given out.
 */
export async function* readLevels(
  ready: Ready,
  frequenciesMhz: readonly number[],
  manner: Manner = plainly,
): AsyncGenerator<Reading, void> {
  const { talk, profile } = ready;
  const prepared = await unlessStopped(talk.signal, () => prepare(talk, profile));
  if (prepared === null) return;
  if (profile.trace !== null) {
    yield* readTraces(ready, profile.trace, frequenciesMhz, manner);
    return;
  }
  let before: Reading | undefined;
  let read = 0;
  const next = async (frequencyMhz: number) => {
    if (read > 0) await rest(talk, profile.pauseMs);
    read += 1;
    return await readOne(ready, frequencyMhz);
  };
  for (const frequencyMhz of frequenciesMhz) {
    const reading = await unlessStopped(talk.signal, () =>
      readCarefully(() => next(frequencyMhz), before?.meterDbmv, manner),
    );
    if (reading === null) return;
    before = reading;
    yield reading;
  }
}

async function prepare(talk: Talk, profile: Profile): Promise<true> {
  for (const line of profile.prepare) await tellMeter(talk, line);
  return true;
}

/** Null when the signal stopped it: being stopped is no fault. */
export async function unlessStopped<T>(signal: AbortSignal, task: () => Promise<T>): Promise<T | null> {
  if (signal.aborted) return null;
  try {
    return await task();
  } catch (fault) {
    if (signal.aborted && fault === signal.reason) return null;
    throw fault;
  }
}

async function readOne(ready: Ready, frequencyMhz: number): Promise<Reading> {
  const { talk, profile, unit } = ready;
  const during = `at ${frequencyMhz} MHz`;
  if (frequencyMhz < profile.limits.lowestMhz || frequencyMhz > profile.limits.highestMhz)
    throw outOfReach(talk, profile, frequencyMhz);
  try {
    let fields = await askLevel(ready, frequencyMhz);
    if (errorIn(fields) !== null) {
      // It may be left from something that was pressed on the meter; with an empty queue it is about this reading.
      await drainErrors(talk, profile);
      fields = await askLevel(ready, frequencyMhz);
    }
    const error = errorIn(fields);
    if (error !== null) throw meterError(talk, profile, during, error);
    return {
      frequencyMhz,
      meterDbmv: levelIn(profile, unit, fields),
      kind: null,
      takenAt: ready.now().toISOString(),
    };
  } catch (fault) {
    throw await explained(talk, profile, during, fault);
  }
}

async function askLevel({ talk, profile, unit }: Ready, frequencyMhz: number): Promise<Fields> {
  if (profile.level === null) throw new Error(`the profile "${profile.name}" reads no single level`);
  const hz = Math.round(frequencyMhz * 1e6);
  if (profile.tune !== null) {
    await tellMeter(talk, aboutFrequency(profile.tune.say, hz));
    await rest(talk, profile.tune.settleMs);
  }
  const question: Question = { ...profile.level, ask: aboutFrequency(profile.level.ask, hz) };
  return await askMeter(talk, question, makesSenseAt(profile, unit, hz));
}

/** The meter could not do it, and need not be asked. */
export const outOfReach = (talk: Talk, { limits, title }: Profile, frequencyMhz: number): MeterFault =>
  new MeterFault(
    'meter-error',
    talk.where,
    `${frequencyMhz} MHz: ${title} reads from ${limits.lowestMhz} to ${limits.highestMhz} MHz; take that frequency out of the plan or use another meter`,
  );
