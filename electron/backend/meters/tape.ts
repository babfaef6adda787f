import { deflateSync, inflateSync } from 'node:zlib';
import { z } from 'zod';
import { MeterProfile } from '../../../core/files/meter-profile.ts';
import type { Tap } from './line-link.ts';
import { type LevelUnit, levelUnits, type Profile } from './profile.ts';

const Entry = z.tuple([
  /** Said to the meter, heard from it, or given up waiting for an answer. */
  z.enum(['said', 'heard', 'gave-up']),
  /** Elapsed, in ms. */
  z.number().int().min(0),
  z.string(),
]);
/** One session: the meter was greeted, and then these bytes went to and fro (latin1) until the link went or the plan ended. */
const Session = z.strictObject({
  /** Which of the tape's profiles. */
  profile: z.number().int().min(0),
  unit: z.enum(levelUnits),
  entries: z.array(Entry),
});
const about = {
  frequenciesMhz: z.array(z.number().positive()),
  manner: z.strictObject({ repeats: z.number().int().min(1), recheck: z.boolean() }),
  startedAt: z.iso.datetime(),
};

/** Every byte of a sweep, with the profile by which it was read, so that it can be read again years later. */
export const Tape = z.strictObject({
  format: z.literal('tiltwright-tape/1'),
  profiles: z.array(MeterProfile).min(1),
  ...about,
  sessions: z.array(Session),
});
export type Tape = z.infer<typeof Tape>;

/** What a portion tells, in the order in which it happened. */
const Event = z.union([
  z.strictObject({ profile: MeterProfile }),
  z.strictObject({ opened: z.number().int().min(0), unit: z.enum(levelUnits) }),
  Entry,
]);
const Portion = z.strictObject({
  format: z.literal('tiltwright-tape/2'),
  about: z.strictObject(about).optional(),
  events: z.array(Event),
});
type Event = z.infer<typeof Event>;

/** A piece of a tape as it is kept, and the place that it has among the others. */
export type TapePortion = Readonly<{ place: number; body: Uint8Array }>;

/** Records one sweep over as many sessions as it takes. */
export type TapeRecorder = Tap &
  Readonly<{
    /** A greeted meter begins to read. */
    opened(profile: Profile, unit: LevelUnit): void;
    /** What happened since the last portion that was kept, packed; null when nothing did. Asked again, it has grown. */
    portion(): TapePortion | null;
    /** The portion that was asked for last is on disk. */
    kept(): void;
  }>;

/** As far back as deflate looks. */
const dictionaryOf = (before: Buffer): Buffer => before.subarray(-32_000);

/** @param elapsed  ms on a clock that never goes back */
export function createTapeRecorder(
  what: Pick<Tape, 'frequenciesMhz' | 'manner' | 'startedAt'>,
  elapsed: () => number,
): TapeRecorder {
  const startMs = elapsed();
  const profiles: Profile[] = [];
  let waiting: Event[] = [];
  let before: Buffer = Buffer.alloc(0);
  let place = 0;
  let asked: Readonly<{ text: Buffer; count: number }> | null = null;
  const note = (kind: 'said' | 'heard' | 'gave-up', bytes?: Uint8Array) => {
    if (profiles.length === 0) return;
    const text = bytes === undefined ? '' : Buffer.from(bytes).toString('latin1');
    waiting.push([kind, Math.max(0, Math.round(elapsed() - startMs)), text]);
  };
  return {
    opened(profile, unit) {
      if (!profiles.includes(profile)) {
        profiles.push(profile);
        waiting.push({ profile });
      }
      waiting.push({ opened: profiles.indexOf(profile), unit });
    },
    said: (bytes) => note('said', bytes),
    heard: (bytes) => note('heard', bytes),
    gaveUp: () => note('gave-up'),
    portion() {
      if (waiting.length === 0) return null;
      const head = place === 0 ? { about: what } : {};
      const text = Buffer.from(JSON.stringify({ format: 'tiltwright-tape/2', ...head, events: waiting }));
      asked = { text, count: waiting.length };
      const body =
        before.length === 0 ? deflateSync(text) : deflateSync(text, { dictionary: dictionaryOf(before) });
      return { place, body };
    },
    kept() {
      if (asked === null) return;
      waiting = waiting.slice(asked.count);
      before = dictionaryOf(Buffer.concat([before, asked.text]));
      place += 1;
      asked = null;
    },
  };
}

/** Beyond this a packed tape is none: a sweep of 2000 frequencies is far below. */
const LARGEST_BYTES = 100_000_000;

/** @throws  Error when the bytes are damaged or are no tape */
export const unpackTape = (packed: Uint8Array): Tape =>
  Tape.parse(JSON.parse(inflateSync(packed, { maxOutputLength: LARGEST_BYTES }).toString('utf8')));

/**
 * The tape that these portions are, in their order.
 * @throws  Error when one is damaged or missing, or they are no tape
 */
export function joinPortions(bodies: readonly Uint8Array[]): Tape {
  const profiles: MeterProfile[] = [];
  const sessions: Tape['sessions'] = [];
  let what: z.infer<typeof Portion>['about'];
  let before: Buffer = Buffer.alloc(0);
  for (const body of bodies) {
    const options = { maxOutputLength: LARGEST_BYTES };
    const text = inflateSync(
      body,
      before.length === 0 ? options : { ...options, dictionary: dictionaryOf(before) },
    );
    const portion = Portion.parse(JSON.parse(text.toString('utf8')));
    what ??= portion.about;
    for (const event of portion.events) {
      if ('profile' in event) profiles.push(event.profile);
      else if ('opened' in event) sessions.push({ profile: event.opened, unit: event.unit, entries: [] });
      else sessions.at(-1)?.entries.push(event);
    }
    before = dictionaryOf(Buffer.concat([before, text]));
  }
  return Tape.parse({ format: 'tiltwright-tape/1', ...what, profiles, sessions });
}
