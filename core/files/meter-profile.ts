import { z } from 'zod';
import type { Result } from '../result.ts';
import { AnswerLine, printable } from './answer-grammar.ts';
import { readJsonFile } from './json-file.ts';

const ms = (most: number) => z.number().int().min(0).max(most);
const word = z.string().max(200).regex(printable, 'holds a control character or a letter outside of latin1');
const mhz = z.number().positive().max(3000);

/** A question, and the lines that answer it: one of them, whole. */
const Question = z.strictObject({
  ask: word.min(1),
  answers: z.array(AnswerLine).min(1).max(4),
  timeoutMs: ms(120_000).min(50),
});

const Serial = z.strictObject({
  baudRate: z.number().int().min(50).max(4_000_000).default(9600),
  dataBits: z.union([z.literal(7), z.literal(8)]).default(8),
  parity: z.enum(['none', 'even', 'odd']).default('none'),
  stopBits: z.union([z.literal(1), z.literal(2)]).default(1),
  flowControl: z.enum(['none', 'hardware', 'software']).default('none'),
  /** Whether closing the port drops DTR, which resets some meters. */
  hangUpOnClose: z.boolean().default(true),
  /** How the two lines of the port are to stand while it is open; null: as the system has them. */
  dtr: z.boolean().nullable().default(null),
  rts: z.boolean().nullable().default(null),
});

const Lines = z.strictObject({
  /** Sent behind every line. Answers may end with a carriage return, a line feed, or both. */
  terminator: z.enum(['\n', '\r', '\r\n']).default('\n'),
  /** True for a meter that talks unasked: what comes before the first line end may be half a line. */
  discardFirstLine: z.boolean().default(false),
  /** How long an answer that nobody waits for any more keeps the wire. */
  lateAnswerMs: ms(10_000).default(1500),
  /** More characters without a line end mean that the speed of the port is wrong. */
  longestLine: z.number().int().min(80).max(400_000).default(4096),
});

export const meterUnits = ['DBMV', 'DBUV', 'DBM', 'V'] as const;

/** Two numbers from `from` to `to`, ends included, and what a code in there means for the person at the meter. */
const Meaning = z.strictObject({ from: z.number().int(), to: z.number().int(), means: word.min(1) });

const TraceFormat = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('ascii'), separator: word.min(1).max(3).default(',') }),
  z.strictObject({
    kind: z.literal('block'),
    number: z.enum(['real32', 'real64']),
    byteOrder: z.enum(['big', 'little']),
  }),
]);

const Trace = z
  .strictObject({
    /** Sets the span and says what it is: `{startHz}`, `{stopHz}`, `{points}`; fields `startHz`, `stopHz`, `points`. */
    set: Question,
    /** Reads the trace over that span, in one answer. */
    read: z.strictObject({ ask: word.min(1), timeoutMs: ms(120_000).min(50), format: TraceFormat }),
    /**
     * Asks the unit once more after the trace (`unit.confirm`): a trace without a unit of its own may have been counted in
     * another one than was said before it. Off unless said, as in the tapes of before there was this.
     */
    unitAgain: z.boolean().default(false),
    /**
     * Reads a trace again that has a doubtful level at a planned point, where a sweep asks for that. Off unless said, as in
     * the tapes of before there was this.
     */
    askAgain: z.boolean().default(false),
    leastPoints: z.number().int().min(2).max(20_000),
    mostPoints: z.number().int().min(2).max(20_000),
  })
  .refine((trace) => trace.leastPoints <= trace.mostPoints, {
    path: ['leastPoints'],
    message: 'must not exceed mostPoints',
  });

const Limits = z
  .strictObject({
    lowestMhz: mhz.default(1),
    highestMhz: mhz.default(3000),
    /** A level outside of these is no reading of this meter but a damaged line. */
    lowestDbmv: z.number().min(-1000).max(1000).default(-200),
    highestDbmv: z.number().min(-1000).max(1000).default(200),
    /** A number of this size or more, of either sign, says that there is no level. */
    noLevelFrom: z.number().positive().default(9.9e37),
    /** How far from the frequency asked for the meter may tune itself and still have read the carrier. */
    tuneWithinMhz: z.number().min(0).max(10).default(0.05),
  })
  .refine((limits) => limits.lowestMhz <= limits.highestMhz && limits.lowestDbmv <= limits.highestDbmv, {
    message: 'the lowest must not exceed the highest',
  });

/**
 * A kind of meter as data: what is asked, how the answer reads, in which unit, how long it may take. Nothing here talks,
 * and nothing here is code: a file from outside can make a question wrong, but not run anything.
 */
export const MeterProfile = z
  .strictObject({
    format: z.literal('tiltwright-meter/1'),
    name: z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'small letters, digits and hyphens, as in my-meter'),
    title: z.string().trim().min(1).max(120),
    /** Why it is as it is, for the next person. */
    notes: z.array(z.string().max(400)).max(60).default([]),
    /** `file`: a recorded sweep answers, and the "port" is the file's path. */
    link: z.enum(['serial', 'file']).default('serial'),
    serial: Serial.prefault({}),
    lines: Lines.prefault({}),
    /** Rest after opening before anything is said: some meters start when the port opens. */
    settleMs: ms(30_000).default(50),
    /** Said first, without answers: brings the meter to a known state. */
    wake: z.array(word).max(20).default([]),
    /** Fields `maker`, `model`, `serialNumber`, `firmware`; those that are missing stay empty. */
    identify: Question,
    /** Field `calibratedOn`, a date; an answer without it says that there is none. */
    calibration: Question.nullable().default(null),
    /** In which unit it counts: always the same, or as it answers to `confirm` (field `unit`) after it was wished for. */
    unit: z.union([
      z.strictObject({ always: z.enum(meterUnits) }),
      z.strictObject({ wish: word.min(1), confirm: Question }),
    ]),
    /** What dBm and volt of this meter refer to. */
    impedanceOhm: z.union([z.literal(75), z.literal(50)]).default(75),
    /** Added to every level after its conversion to dBmV, for instance the loss of a matching pad. */
    addDb: z.number().min(-100).max(100).default(0),
    /** Said before every sweep, without answers. */
    prepare: z.array(word).max(20).default([]),
    /** Said before each level, where the meter has to be tuned in a line of its own; `{hz}`, `{khz}`, `{mhz}`. */
    tune: z
      .strictObject({ say: word.min(1), settleMs: ms(30_000) })
      .nullable()
      .default(null),
    /** One level: `{hz}`, `{khz}`, `{mhz}`. Fields `level`; and where it says them `hz` or `mhz`, `errorCode`, `errorText`. */
    level: Question.nullable().default(null),
    /** Many levels in one answer. */
    trace: Trace.nullable().default(null),
    /** Rest between two readings. */
    pauseMs: ms(30_000).default(0),
    /** The oldest error. Fields `errorCode`, `errorText`; code 0 when there is none (left). */
    errorQueue: z
      .strictObject({
        next: Question,
        /** More errors than this in a row, and the meter does not mean it. */
        depth: z.number().int().min(1).max(1000),
      })
      .nullable()
      .default(null),
    /** The first that holds a code explains it. */
    errorMeanings: z.array(Meaning).max(100).default([]),
    limits: Limits.prefault({}),
  })
  .superRefine((profile, issues) => {
    const complain = (path: (string | number)[], message: string) =>
      issues.addIssue({ code: 'custom', path, message });
    if ((profile.level === null) === (profile.trace === null))
      complain(['level'], 'a profile reads by "level" or by "trace", one of the two');
    for (const need of needs(profile)) {
      need.question?.answers.forEach((line, i) => {
        const names = line.flatMap((part) => ('name' in part ? [part.name] : []));
        const isError = need.orError && names.includes('errorCode') && !names.includes(need.fields[0] ?? '');
        for (const field of isError ? [] : need.fields)
          if (!names.includes(field)) complain([...need.path, 'answers', i], `no part is named "${field}"`);
      });
    }
    for (const { path, text } of placed(profile))
      for (const [, place = ''] of text.matchAll(/\{([^}]*)\}/g))
        if (!(path[0] === 'trace' ? tracePlaces : levelPlaces).includes(place))
          complain(path, `{${place}} stands for nothing here`);
  });
export type MeterProfile = z.infer<typeof MeterProfile>;
export type MeterQuestion = z.infer<typeof Question>;
export type MeterTrace = z.infer<typeof Trace>;

const levelPlaces = ['hz', 'khz', 'mhz'];
const tracePlaces = ['startHz', 'stopHz', 'startMhz', 'stopMhz', 'points'];

type Checked = Pick<MeterProfile, 'errorQueue' | 'level' | 'trace' | 'tune' | 'unit'>;

/** Which field which answer can't do without. */
const needs = (profile: Checked) => [
  { path: ['errorQueue', 'next'], question: profile.errorQueue?.next, fields: ['errorCode'], orError: false },
  { path: ['level'], question: profile.level, fields: ['level'], orError: true },
  {
    path: ['trace', 'set'],
    question: profile.trace?.set,
    fields: ['startHz', 'stopHz', 'points'],
    orError: true,
  },
  {
    path: ['unit', 'confirm'],
    question: 'confirm' in profile.unit ? profile.unit.confirm : null,
    fields: ['unit'],
    orError: true,
  },
];

const placed = (profile: Checked): readonly Readonly<{ path: string[]; text: string }>[] => [
  ...(profile.level === null ? [] : [{ path: ['level', 'ask'], text: profile.level.ask }]),
  ...(profile.tune === null ? [] : [{ path: ['tune', 'say'], text: profile.tune.say }]),
  ...(profile.trace === null
    ? []
    : [
        { path: ['trace', 'set', 'ask'], text: profile.trace.set.ask },
        { path: ['trace', 'read', 'ask'], text: profile.trace.read.ask },
      ]),
];

/**
 * A profile file's text to a checked profile.
 * @param text      JSON
 * @param fileName  named in a refusal
 * @returns  the profile with its defaults (times in ms, frequencies in MHz, levels in dBmV), or a refusal that names the
 *           file and the key; unknown keys are refused by name
 * @source   the format is this program's own; DEVELOPERS.md, "A meter"
 */
export function readMeterProfile(
  text: string,
  fileName: string,
): Result<MeterProfile, 'not-json' | 'not-a-profile'> {
  return readJsonFile(
    MeterProfile,
    { noun: 'profile', format: 'tiltwright-meter/1', code: 'not-a-profile' },
    text,
    fileName,
  );
}
