import type { Reading } from '../../../core/bridge/records.ts';
import { createLineLink } from './lines-over-bytes.ts';
import { MeterFault } from './meter-shop.ts';
import { readLevels } from './read-levels.ts';
import type { Tape } from './tape.ts';

/** What was not answered then is not answered now; there is nothing to wait for. */
const PATIENCE_MS = 40;
const atOnce = async () => undefined;

/** Something was asked that was not asked then: the tape and the program disagree on how this meter is read. */
export class TapeMismatch extends Error {}

/**
 * Reads a sweep again from its bytes, by the same grammar and the same profile, session after session.
 * @returns  the readings that the bytes say
 * @throws   TapeMismatch when a question comes up that was not put then
 */
export async function rereadTape(tape: Tape): Promise<readonly Reading[]> {
  const readings: Reading[] = [];
  const left = [...tape.frequenciesMhz];
  for (const session of tape.sessions) {
    for await (const reading of readSession(tape, session, left)) {
      readings.push(reading);
      const at = left.indexOf(reading.frequencyMhz);
      if (at >= 0) left.splice(at, 1);
      if (left.length === 0) return readings;
    }
  }
  return readings;
}

async function* readSession(
  tape: Tape,
  session: Tape['sessions'][number],
  left: readonly number[],
): AsyncGenerator<Reading, void> {
  const profile = tape.profiles[session.profile];
  if (profile === undefined) throw new TapeMismatch('the tape lacks the profile of a session');
  const { entries } = session;
  const startMs = Date.parse(tape.startedAt);
  let at = 0;
  let atMs = 0;
  let mismatch = null as TapeMismatch | null;
  let giveUp = (): void => undefined;
  const over = () => new MeterFault('lost', 'the tape', 'it ends here');
  const link = createLineLink('the tape', profile.lines, (events) => {
    /** Everything that was heard before the next question was put, or before this one was given up. */
    const play = () => {
      for (; entries[at]?.[0] === 'heard'; at += 1) {
        atMs = entries[at]?.[1] ?? atMs;
        events.bytes(Buffer.from(entries[at]?.[2] ?? '', 'latin1'));
      }
      if (at >= entries.length) events.gone(over());
    };
    giveUp = () => {
      if (entries[at]?.[0] !== 'gave-up') return;
      at += 1;
      play();
    };
    return {
      write(bytes, taken) {
        const [what, , text] = entries[at] ?? [];
        const asked = Buffer.from(bytes).toString('latin1');
        if (at < entries.length && (what !== 'said' || text !== asked)) {
          mismatch ??= new TapeMismatch(
            `now ${JSON.stringify(asked)} is asked, then it was ${JSON.stringify(text ?? '')}`,
          );
          return events.gone(over());
        }
        at += 1;
        // In the same turn: on a busy machine a timer could else overtake an answer that the tape has.
        queueMicrotask(() => {
          taken();
          play();
        });
      },
      close: async () => undefined,
    };
  });
  link.listen({ said: () => undefined, heard: () => undefined, gaveUp: () => giveUp() });
  const talk = {
    link,
    where: 'the tape',
    signal: new AbortController().signal,
    rest: atOnce,
    patienceMs: PATIENCE_MS,
  };
  const now = () => new Date(startMs + atMs);
  try {
    yield* readLevels({ talk, profile, unit: session.unit, now }, [...left], tape.manner);
  } catch (fault) {
    if (mismatch !== null) throw mismatch;
    if (!(fault instanceof MeterFault)) throw fault;
  } finally {
    await link.close();
  }
}
