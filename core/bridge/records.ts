import { z } from 'zod';
import { Station } from '../files/station.ts';

/** Moments cross the bridge as UTC, ISO 8601 with a trailing Z. */
export const Moment = z.iso.datetime();
export const Id = z.uuid();
export const Kind = z.enum(['analog', 'qam', 'ofdm', 'cw']);
const mhz = z.number().positive();
const text = z.string().trim().min(1).max(400);

/**
 * One answer of a meter, never changed afterwards. `meterDbmv` is what the meter said at the test point, converted
 * to dBmV; the level at the port is that plus the sweep's `testPointLossDb` (core/line/port-level.ts). Null when the
 * meter answered that it has no level there.
 */
export const Reading = z.strictObject({
  frequencyMhz: mhz,
  meterDbmv: z.number().nullable(),
  kind: Kind.nullable(),
  /** As the sweep's file calls it: "256-QAM"; left out where nothing says it. */
  modulation: z.string().min(1).max(60).optional(),
  takenAt: Moment,
});
export type Reading = z.infer<typeof Reading>;

export const MeterIdentity = z.strictObject({
  maker: z.string(),
  model: z.string(),
  serialNumber: z.string(),
  firmware: z.string(),
  /** The day of its last calibration, where it tells one. */
  calibratedOn: z.iso.date().optional(),
  /** The last day on which that counts, as a technician read it on the meter's sticker. */
  calibrationDueOn: z.iso.date().optional(),
});
export type MeterIdentity = z.infer<typeof MeterIdentity>;

/** A serial port (found or typed) with the name of a profile, or the simulated meter inside the process. */
export const MeterChoice = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('serial'), path: text, profile: text }),
  z.strictObject({ kind: z.literal('simulated') }),
]);
export type MeterChoice = z.infer<typeof MeterChoice>;

export const ConnectedMeter = z.strictObject({
  choice: MeterChoice,
  identity: MeterIdentity,
  connectedAt: Moment,
});
export type ConnectedMeter = z.infer<typeof ConnectedMeter>;

export const FoundPort = z.strictObject({
  path: text,
  label: z.string(),
  likely: z.boolean(),
  /** What tells this adapter from every other, whatever its port is called; absent where nothing does. */
  adapter: z.string().optional(),
});
export type FoundPort = z.infer<typeof FoundPort>;

export const Purpose = z.enum(['as-found', 'as-left', 'check']);
export type Purpose = z.infer<typeof Purpose>;

/** `recording` while it runs; `partial` when it was cut short, with `endReason` saying by what. */
export const SweepState = z.enum(['recording', 'complete', 'partial']);
export type SweepState = z.infer<typeof SweepState>;

/** Why something was declared, by whom and when. */
export const Said = z.strictObject({ reason: text, operator: text, at: Moment });
export type Said = z.infer<typeof Said>;

export const SweepSummary = z.strictObject({
  sweepId: Id,
  visitId: Id,
  stationId: text,
  revision: z.number().int().positive(),
  portName: text,
  purpose: Purpose,
  state: SweepState,
  source: z.enum(['meter', 'file']),
  /** The file's name for a sweep from a file, the profile's name for one from a meter. */
  sourceName: text,
  meter: MeterIdentity.nullable(),
  testPointLossDb: z.number().min(0),
  ambientC: z.number().nullable(),
  startedAt: Moment,
  endedAt: Moment.nullable(),
  plannedCount: z.number().int().min(0),
  readingCount: z.number().int().min(0),
  endReason: z.string().nullable(),
  /** What was plugged in while it was read. */
  pluggedIn: z.record(z.string(), z.number()),
  /** Declared void: it stays, and nothing is judged by it. Null for one that counts. */
  voided: Said.nullable(),
  /** The sweep whose readings these are and which this one says right, and why; null for one as it was read. */
  corrects: z.strictObject({ sweepId: Id, ...Said.shape }).nullable(),
  /** The sweep that says this one right; then that one is judged. */
  correctedBy: Id.nullable(),
});
export type SweepSummary = z.infer<typeof SweepSummary>;

export const Sweep = z.strictObject({ summary: SweepSummary, readings: z.array(Reading) });
export type Sweep = z.infer<typeof Sweep>;

export const Change = z.strictObject({ position: text, from: z.number(), to: z.number() });
export type Change = z.infer<typeof Change>;

export const Fitting = z.strictObject({
  fittingId: Id,
  visitId: Id,
  at: Moment,
  change: Change,
  proposalId: Id.nullable(),
});
export type Fitting = z.infer<typeof Fitting>;

/** What was proposed from which sweep, kept when its parts are fitted: the prediction that the next sweep is held against. */
export const ProposalNote = z.strictObject({
  sweepId: Id,
  values: z.record(z.string(), z.number()),
  worstBeforeDb: z.number(),
  worstPredictedDb: z.number(),
});
export type ProposalNote = z.infer<typeof ProposalNote>;
export const StoredProposal = z.strictObject({ proposalId: Id, visitId: Id, at: Moment, note: ProposalNote });
export type StoredProposal = z.infer<typeof StoredProposal>;

/** How far one trim was turned, dB, read where it has its full effect; and the sweep that it was reckoned from. */
export const Turn = z.strictObject({
  name: text,
  kind: z.enum(['gain', 'slope']),
  atMhz: mhz,
  byDb: z.number().refine((byDb) => Math.abs(byDb) >= 0.001 && Math.abs(byDb) <= 1000),
});
export type Turn = z.infer<typeof Turn>;
export const TrimTurn = z.strictObject({
  turnId: Id,
  visitId: Id,
  sweepId: Id,
  portName: text,
  at: Moment,
  turn: Turn,
});
export type TrimTurn = z.infer<typeof TrimTurn>;

export const Visit = z.strictObject({
  visitId: Id,
  stationId: text,
  operator: z.string(),
  ambientC: z.number().nullable(),
  startedAt: Moment,
  endedAt: Moment.nullable(),
  cautionsReadAt: Moment,
  note: z.string(),
});
export type Visit = z.infer<typeof Visit>;

/** How a station stood at its newest sweep, as core/line/standing.ts judged it. */
export const Standing = z.strictObject({
  sweepId: Id,
  at: Moment,
  purpose: Purpose,
  state: SweepState,
  verdict: z.enum(['pass', 'fail', 'undecided']).nullable(),
  headline: z.string(),
  worstDb: z.number().nullable(),
  worstMhz: z.number().nullable(),
});
export type Standing = z.infer<typeof Standing>;

export const StationRow = z.strictObject({
  stationId: text,
  name: text,
  revision: z.number().int().positive(),
  sweepCount: z.number().int().min(0),
  openVisit: z.boolean(),
  standing: Standing.nullable(),
  /** Why it is out of service; not there while it is in. */
  outOfService: text.optional(),
});
export type StationRow = z.infer<typeof StationRow>;

export const StationSheet = z.strictObject({
  station: Station,
  revision: z.number().int().positive(),
  revisedAt: Moment,
  /** What is plugged in now: the design revision's `installed` and every fitting since. */
  pluggedIn: z.record(z.string(), z.number()),
  openVisit: Visit.nullable(),
  visits: z.array(Visit),
  /** Newest first. */
  sweeps: z.array(SweepSummary),
  fittings: z.array(Fitting),
  proposals: z.array(StoredProposal),
  /** Newest first. */
  turns: z.array(TrimTurn),
});
export type StationSheet = z.infer<typeof StationSheet>;
