import { z } from 'zod';
import { done, type Result, refuse } from '../result.ts';

/*
 * Every kind of record, as it is hashed, exported and imported: whole numbers of the units that the keys name, text,
 * null, lists and objects. A reference is the other record's UUID. What a person's file says in numbers with a fraction
 * (a design, notes, a plan) is its JSON as text, so that no program spells it otherwise.
 */
const whole = z.int();
const natural = z.int().min(0);
const atMs = natural.max(253_402_300_799_999);
const text = z.string();
const some = z.string().min(1);
const id = z.uuid();
const hz = z.int().min(1).max(1_000_000_000_000);
const level = z.int().min(-1_000_000).max(1_000_000).nullable();
const lossMdb = natural.max(1_000_000);
const ambientMc = z.int().min(-90_000).max(90_000).nullable();
const flag = z.union([z.literal(0), z.literal(1)]);
const digest = z.string().regex(/^[0-9a-f]{64}$/);
/** What is printed on a part. */
const printed = z.string().regex(/^\d+(\.\d+)?(e-?\d+)?$/);
const json = z.string().min(1);
const made = { orderMs: natural, session: id };
const atPort = { stationId: some, design: id, portName: some };

const Readings = z.strictObject({
  frequencyHz: z.array(hz),
  meterMdbmv: z.array(level),
  kind: z.array(z.enum(['analog', 'qam', 'ofdm', 'cw']).nullable()),
  takenAtMs: z.array(atMs),
});

/** For each kind of record, what it is made of; unknown keys are refused. */
export const recordDocuments = {
  session: z.strictObject({
    sessionId: id,
    openedAtMs: atMs,
    program: text,
    host: z.enum(['window', 'browser', 'memory']),
    utcOffsetMin: whole,
    timeZone: text,
  }),
  design: z.strictObject({
    designId: id,
    stationId: some,
    name: some,
    design: json,
    fileName: text,
    addedAtMs: atMs,
    ...made,
  }),
  visit: z.strictObject({
    visitId: id,
    stationId: some,
    operator: text,
    ambientMc,
    cautionsReadAtMs: atMs,
    startedAtMs: atMs,
    ...made,
  }),
  'visit-end': z.strictObject({ visit: id, note: text, endedAtMs: atMs, session: id }),
  sweep: z.strictObject({
    sweepId: id,
    visit: id,
    ...atPort,
    hasDesign: flag,
    purpose: z.enum(['as-found', 'as-left', 'check']),
    source: z.enum(['meter', 'file']),
    sourceName: some,
    meter: z.record(z.string(), z.string()).nullable(),
    testPointLossMdb: lossMdb,
    ambientMc,
    plannedCount: z.int().min(1),
    pluggedIn: z.record(z.string(), printed),
    startedAtMs: atMs,
    ...made,
    corrects: z.strictObject({ sweep: id, reason: some, operator: some, correctedAtMs: atMs }).nullable(),
    end: z.strictObject({
      state: z.enum(['complete', 'partial']),
      reason: some.nullable(),
      recovered: flag,
      readingCount: natural,
      endedAtMs: atMs,
      session: id,
    }),
    /** What went over the wire; the bytes travel beside the record. */
    raw: z.strictObject({ form: z.enum(['portions', 'whole']), count: natural, sha256: digest }).nullable(),
    /** Of the file's text in UTF-8. */
    fileSha256: digest.nullable(),
    /** Of a file that is written otherwise: in what, and of its bytes. */
    fileWritten: z
      .strictObject({ encoding: z.enum(['utf-16le', 'utf-16be', 'windows-1252']), sha256: digest })
      .optional(),
    readings: Readings,
  }),
  void: z.strictObject({ voidId: id, sweep: id, reason: some, operator: some, voidedAtMs: atMs, ...made }),
  proposal: z.strictObject({
    proposalId: id,
    visit: id,
    sweep: id,
    stationId: some,
    plugIns: json,
    worstBeforeMdb: whole,
    worstPredictedMdb: whole,
    proposedAtMs: atMs,
    ...made,
  }),
  fitting: z.strictObject({
    fittingId: id,
    visit: id,
    stationId: some,
    design: id,
    position: some,
    from: printed,
    to: printed,
    proposal: id.nullable(),
    fittedAtMs: atMs,
    ...made,
  }),
  'trim-turn': z.strictObject({
    turnId: id,
    visit: id,
    sweep: id.nullable(),
    stationId: some,
    portName: some,
    trim: some,
    trimKind: some,
    frequencyHz: hz.nullable(),
    byMdb: whole,
    turnedAtMs: atMs,
    ...made,
  }),
  live: z.strictObject({
    liveId: id,
    visit: id.nullable(),
    ...atPort,
    frequencyHz: hz,
    testPointLossMdb: lossMdb,
    profile: some,
    meter: json,
    ambientMc,
    pluggedIn: json,
    startedAtMs: atMs,
    ...made,
    end: z.strictObject({
      reason: some.nullable(),
      recovered: flag,
      readingCount: natural,
      endedAtMs: atMs,
      session: id,
    }),
    readings: z.strictObject({
      elapsedMs: z.array(natural),
      meterMdbmv: z.array(level),
      takenAtMs: z.array(atMs),
    }),
  }),
  'set-up': z.strictObject({
    setUpId: id,
    visit: id,
    stationId: some,
    design: id,
    plan: json,
    startedAtMs: atMs,
    ...made,
  }),
  'set-up-event': z.strictObject({
    setUp: id,
    place: natural,
    step: some,
    outcome: z.enum(['done', 'skipped', 'redo']),
    by: z.enum(['reading', 'hand']),
    reason: some.nullable(),
    entered: json,
    live: id.nullable(),
    happenedAtMs: atMs,
    session: id,
  }),
  'set-up-abandoned': z.strictObject({ setUp: id, reason: some, abandonedAtMs: atMs, session: id }),
  watch: z.strictObject({
    watchId: id,
    visit: id.nullable(),
    ...atPort,
    testPointLossMdb: lossMdb,
    frequencies: json,
    pilotHz: hz.nullable(),
    everyMs: z.int().min(1),
    forMs: z.int().min(1).nullable(),
    startedAtMs: atMs,
    ...made,
    end: z.strictObject({
      state: z.enum(['complete', 'stopped', 'cut-short']),
      reason: some.nullable(),
      endedAtMs: atMs,
      session: id,
    }),
    meters: z.array(
      z.strictObject({
        fromRound: natural,
        choice: json,
        meter: json,
        profile: some,
        connectedAtMs: atMs,
        session: id,
      }),
    ),
    rounds: z.strictObject({
      round: z.array(natural),
      rounds: z.array(z.int().min(1)),
      gap: z.array(some.nullable()),
      takenAtMs: z.array(atMs),
      session: z.array(id),
    }),
    levels: z.strictObject({
      round: z.array(natural),
      place: z.array(natural),
      meterMdbmv: z.array(level),
    }),
    temperatures: z.array(z.strictObject({ ambientMc: whole, notedAtMs: atMs, session: id })),
  }),
  settings: z.strictObject({ settings: json, changedAtMs: atMs, ...made }),
  notes: z.strictObject({ stationId: some, notes: json.nullable(), changedAtMs: atMs, ...made }),
  truck: z.strictObject({ truck: json.nullable(), visit: id.nullable(), changedAtMs: atMs, ...made }),
  'meter-use': z.strictObject({
    choice: json,
    identity: json,
    adapter: some.nullable(),
    connectedAtMs: atMs,
    ...made,
  }),
  calibration: z.strictObject({
    maker: text,
    model: text,
    serialNumber: text,
    adapter: some.nullable(),
    dueOn: z.iso.date().nullable(),
    notedAtMs: atMs,
    ...made,
  }),
  'simulated-hand': z.strictObject({ stationId: some, hand: json, ambientMc, doneAtMs: atMs, ...made }),
} as const;

export type RecordKind = keyof typeof recordDocuments;
const isRecordKind = (kind: string): kind is RecordKind => Object.hasOwn(recordDocuments, kind);

/**
 * A record of a file, checked.
 * @param kind      what it says it is
 * @param document  what it says; whole numbers of the units that its keys name
 * @param where     named in a refusal: the file and the line
 * @returns  the document as it was, or what is wrong with it
 * @source   this project's own form of a record; no published source
 */
export function checkedRecord(
  kind: string,
  document: unknown,
  where: string,
): Result<unknown, 'unknown-record' | 'not-a-record'> {
  if (!isRecordKind(kind))
    return refuse('unknown-record', where, `a record of the kind "${kind}"; take it in with a newer program`);
  const read = recordDocuments[kind].safeParse(document);
  if (read.success) return done(read.data);
  const [first] = read.error.issues;
  return refuse('not-a-record', where, `${first?.path.join('.') ?? ''}: ${first?.message ?? 'not a record'}`);
}
