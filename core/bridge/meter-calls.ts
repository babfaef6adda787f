import { z } from 'zod';
import { ConnectedMeter, Id, MeterChoice, MeterIdentity, Moment, Reading } from './records.ts';

const Nothing = z.strictObject({});
const text = z.string().trim().min(1).max(400);

/** One question of a check, what came back and what was made of it. */
export const Exchange = z.strictObject({
  step: z.string(),
  said: z.string(),
  /** Null where nothing was to come, and where nothing came. */
  heard: z.string().nullable(),
  understood: z.record(z.string(), z.string()).nullable(),
  /** Null where all is well. */
  problem: z.string().nullable(),
});
export type Exchange = z.infer<typeof Exchange>;

const count = z.number().int().min(0);

/** How the link to a meter is, and what went over it last. */
export const LinkHealth = z.strictObject({
  /** The port, or the simulated meter; null before any was tried. */
  where: z.string().nullable(),
  readingCount: count,
  /** Over the last seconds; null while nothing is read. */
  readingsPerSecond: z.number().min(0).nullable(),
  /** Questions whose answer did not come in time. */
  unansweredCount: count,
  /** How often reading broke off or the link was gone. */
  breakCount: count,
  lastProblem: z.string().nullable(),
  lastAnswerAgoMs: count.nullable(),
  /** The last lines, oldest first; bytes that are no text as \\xNN. */
  traffic: z
    .array(z.strictObject({ way: z.enum(['said', 'heard', 'gave-up']), text: z.string(), agoMs: count }))
    .max(40),
});
export type LinkHealth = z.infer<typeof LinkHealth>;

export const meterCalls = {
  'meters.health': { in: Nothing, out: LinkHealth },
  /** Keeps what the meter's calibration sticker says, for this meter; null takes back what was kept. */
  'meters.calibration': {
    in: z.strictObject({ dueOn: z.iso.date().nullable() }),
    out: ConnectedMeter,
  },
  /** The meter that was used last, and where its adapter is plugged in now. */
  'meters.last': {
    in: Nothing,
    out: z.strictObject({
      last: z
        .strictObject({
          choice: MeterChoice,
          identity: MeterIdentity,
          connectedAt: Moment,
          /** What to connect with now: its port may have another name. Null: the adapter is not plugged in. */
          now: MeterChoice.nullable(),
          moved: z.boolean(),
        })
        .nullable(),
    }),
  },
  /** Every profile, and the files of the data folder's `profiles` that are none. */
  'profiles.list': {
    in: Nothing,
    out: z.strictObject({
      profiles: z.array(z.strictObject({ name: text, title: text })),
      broken: z.array(z.strictObject({ fileName: z.string(), where: z.string(), help: z.string() })),
      /** Where a shop puts its own. */
      folder: z.string(),
    }),
  },
  /** A profile as the text of its file, to begin one's own from. */
  'profiles.read': {
    in: z.strictObject({ name: text }),
    out: z.strictObject({ text: z.string(), shipped: z.boolean() }),
  },
  /** Keeps a profile of one's own; what is none is refused with its key. */
  'profiles.save': {
    in: z.strictObject({ text: z.string().max(1_000_000) }),
    out: z.strictObject({ name: text }),
  },
  /** Tries a profile on a port, question by question. The meter in use is put away first. */
  'profiles.check': {
    in: z.strictObject({
      path: text,
      text: z.string().max(1_000_000),
      atMhz: z.number().positive().max(3000),
    }),
    out: z.strictObject({ exchanges: z.array(Exchange), problemCount: z.number().int().min(0) }),
  },
  /** A running sweep rests before its next reading until it is told to go on. */
  'sweeps.pause': { in: z.strictObject({ sweepId: Id, paused: z.boolean() }), out: Nothing },
  /** Reads a sweep again from the bytes that are kept with it. */
  'sweeps.reread': {
    in: z.strictObject({ sweepId: Id }),
    out: z.strictObject({
      /** False for a sweep from a file, and for one of before the bytes were kept. */
      kept: z.boolean(),
      byteCount: z.number().int().min(0),
      readings: z.array(Reading),
      /** True when every reading that is kept says the same as its bytes. */
      same: z.boolean(),
    }),
  },
} as const;

export const meterEvents = {
  /**
   * In the middle of a sweep the link broke off and the meter is looked for, or it is back; or the port that is being
   * connected was plugged in just now and is not ready yet.
   */
  'meter.link': z.strictObject({
    link: z.enum(['looking', 'back', 'waiting']),
    /** What happened, while it is looked for or waited for. */
    why: z.string().nullable(),
    /** How long it was away, when it is back. */
    afterMs: z.number().int().min(0).nullable(),
    /** How long it is still waited for, at most. */
    leftMs: z.number().int().min(0).nullable(),
  }),
} as const;
