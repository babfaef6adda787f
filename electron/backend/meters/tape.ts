import { deflateSync, inflateSync } from 'node:zlib';
import { z } from 'zod';
import { MeterProfile } from '../../../core/files/meter-profile.ts';
import type { Tap } from './line-link.ts';
import { type LevelUnit, levelUnits, type Profile } from './profile.ts';

const elapsedMs = z.number().int().min(0);
/** One session: the meter was greeted, and then these bytes went to and fro (latin1) until the link went or the plan ended. */
const Session = z.strictObject({
  /** Which of the tape's profiles. */
  profile: z.number().int().min(0),
  unit: z.enum(levelUnits),
  entries: z.array(
    z.tuple([
      /** Said to the meter, heard from it, or given up waiting for an answer. */
      z.enum(['said', 'heard', 'gave-up']),
      elapsedMs,
      z.string(),
    ]),
  ),
});

/** Every byte of a sweep, with the profile by which it was read, so that it can be read again years later. */
export const Tape = z.strictObject({
  format: z.literal('tiltwright-tape/1'),
  profiles: z.array(MeterProfile).min(1),
  frequenciesMhz: z.array(z.number().positive()),
  manner: z.strictObject({ repeats: z.number().int().min(1), recheck: z.boolean() }),
  startedAt: z.iso.datetime(),
  sessions: z.array(Session),
});
export type Tape = z.infer<typeof Tape>;

/** Records one sweep over as many sessions as it takes. */
export type TapeRecorder = Tap &
  Readonly<{
    /** A greeted meter begins to read. */
    opened(profile: Profile, unit: LevelUnit): void;
    tape(): Tape;
  }>;

/** @param elapsed  ms on a clock that never goes back */
export function createTapeRecorder(
  about: Pick<Tape, 'frequenciesMhz' | 'manner' | 'startedAt'>,
  elapsed: () => number,
): TapeRecorder {
  const startMs = elapsed();
  const profiles: Profile[] = [];
  const sessions: Tape['sessions'] = [];
  const note = (what: 'said' | 'heard' | 'gave-up', bytes?: Uint8Array) => {
    const text = bytes === undefined ? '' : Buffer.from(bytes).toString('latin1');
    sessions.at(-1)?.entries.push([what, Math.max(0, Math.round(elapsed() - startMs)), text]);
  };
  return {
    opened(profile, unit) {
      if (!profiles.includes(profile)) profiles.push(profile);
      sessions.push({ profile: profiles.indexOf(profile), unit, entries: [] });
    },
    said: (bytes) => note('said', bytes),
    heard: (bytes) => note('heard', bytes),
    gaveUp: () => note('gave-up'),
    tape: () => ({ format: 'tiltwright-tape/1', ...about, profiles, sessions }),
  };
}

export const packTape = (tape: Tape): Buffer => deflateSync(JSON.stringify(tape));

/** Beyond this a packed tape is none: a sweep of 2000 frequencies is far below. */
const LARGEST_BYTES = 100_000_000;

/** @throws  Error when the bytes are damaged or are no tape */
export const unpackTape = (packed: Uint8Array): Tape =>
  Tape.parse(JSON.parse(inflateSync(packed, { maxOutputLength: LARGEST_BYTES }).toString('utf8')));
