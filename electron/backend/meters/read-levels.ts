import type { Reading } from '../../../core/bridge/records.ts';
import { askMeter, type Fields, type Talk } from './ask-meter.ts';
import { drainErrors, errorIn, explained, meterError } from './error-queue.ts';
import { levelInDbmv } from './level-in-dbmv.ts';
import type { LevelUnit, Profile, Question } from './profile.ts';

/** A connected meter that has said in which unit it counts. */
export type Ready = Readonly<{ talk: Talk; profile: Profile; unit: LevelUnit; now: () => Date }>;

/**
 * Walks a plan: one reading a frequency, in order, each as it comes. Ends at once when the signal aborts, whatever
 * the meter is doing. Throws `MeterFault`; what was read before it has been given out.
 */
export async function* readLevels(
  ready: Ready,
  frequenciesMhz: readonly number[],
): AsyncGenerator<Reading, void> {
  for (const frequencyMhz of frequenciesMhz) {
    const reading = await unlessStopped(ready.talk.signal, () => readOne(ready, frequencyMhz));
    if (reading === null) return;
    yield reading;
  }
}

/** Null when the signal stopped it: being stopped is no fault. */
async function unlessStopped<T>(signal: AbortSignal, task: () => Promise<T>): Promise<T | null> {
  if (signal.aborted) return null;
  try {
    return await task();
  } catch (fault) {
    if (signal.aborted && fault === signal.reason) return null;
    throw fault;
  }
}

async function readOne(ready: Ready, frequencyMhz: number): Promise<Reading> {
  const { talk, profile } = ready;
  const during = `at ${frequencyMhz} MHz`;
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
      meterDbmv: levelOf(ready, Number(fields.level)),
      kind: null,
      takenAt: ready.now().toISOString(),
    };
  } catch (fault) {
    throw await explained(talk, profile, during, fault);
  }
}

/** An answer for another frequency makes sense only where the meter says that something went wrong. */
function askLevel({ talk, profile }: Ready, frequencyMhz: number): Promise<Fields> {
  const hz = Math.round(frequencyMhz * 1e6);
  const question: Question = { ...profile.level, ask: profile.level.ask.replace('{hz}', String(hz)) };
  return askMeter(
    talk,
    question,
    (fields) => errorIn(fields) !== null || Math.abs(Number(fields.hz) - hz) <= profile.tuneWithinMhz * 1e6,
  );
}

function levelOf({ profile, unit }: Ready, amount: number): number | null {
  if (!(Math.abs(amount) < profile.noLevelFrom)) return null;
  return levelInDbmv(amount, unit);
}
