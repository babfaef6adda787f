import type { LineUpEntry } from '../channels/line-up.ts';
import type { Station } from '../files/station.ts';
import type { Trim } from '../files/station-notes.ts';
import type { Truck } from '../files/truck.ts';
import type { LevelRow } from '../line/level-row.ts';
import type { SetUpPlan } from '../set-up/plan.ts';
import type { StepEvent } from '../set-up/state.ts';
import type { Conditions } from '../uncertainty/budget.ts';
import type { LevelUnitWord, TemperatureUnit } from '../words/numbers.ts';

/** What a report is made from: records as the archive has them, already read. Moments are UTC, ISO 8601. */

/** Where the clock stood when a record was made. */
export type Place = Readonly<{ timeZone: string; utcOffsetMin: number }>;

export type MeterFacts = Readonly<{
  maker: string;
  model: string;
  serialNumber: string;
  firmware: string;
  calibratedOn?: string | undefined;
  calibrationDueOn?: string | undefined;
}>;

/** Whose word the meter's uncertainty is. */
export type SheetWord =
  | Readonly<{ from: 'station' }>
  | Readonly<{ from: 'model'; model: string }>
  | Readonly<{ from: 'defaults' }>;

/** Why a record is followed by another, by whom and when. */
export type Amended = Readonly<{ reason: string; by: string; at: string }>;

export type ReportSweep = Readonly<{
  sweepId: string;
  /** The design that was the newest when it was read. */
  station: Station;
  portName: string;
  purpose: 'as-found' | 'as-left' | 'check';
  state: 'recording' | 'complete' | 'partial';
  source: 'meter' | 'file';
  sourceName: string;
  meter: MeterFacts | null;
  startedAt: string;
  endReason: string | null;
  pluggedIn: Readonly<Record<string, number>>;
  /** At the port. */
  rows: readonly LevelRow[];
  conditions: Conditions;
  sheet: SheetWord;
  /** Of the sweep's file as the workbench exports it, hexadecimal. */
  sha256: string;
  /** Declared void: why, by whom and when; null where it counts. */
  voided: Amended | null;
  /** The sweep that this one says right, and why; null for a sweep as it was read. */
  corrects: (Amended & Readonly<{ sweepId: string }>) | null;
  /** The sweep that says this one right, or null. */
  correctedBy: string | null;
}>;

export type ReportFitting = Readonly<{ at: string; position: string; from: number; to: number }>;

/** What a hand turned at a trim: dB at the frequency where it has its full effect, up positive. */
export type ReportTurn = Readonly<{
  at: string;
  portName: string;
  trim: string;
  kind: 'gain' | 'slope';
  atMhz: number;
  byDb: number;
}>;

export type ReportSetUp = Readonly<{
  startedAt: string;
  plan: SetUpPlan;
  events: readonly (StepEvent & Readonly<{ at: string }>)[];
  abandoned: string | null;
  conditions: Conditions;
}>;

export type ReportVisit = Readonly<{
  visitId: string;
  operator: string;
  ambientC: number | null;
  startedAt: string;
  endedAt: string | null;
  cautionsReadAt: string;
  note: string;
  place: Place;
  /** The program that recorded it. */
  program: string;
  /** In the order in which they were read. */
  sweeps: readonly ReportSweep[];
  /** In the order in which they were made. */
  fittings: readonly ReportFitting[];
  /** In the order in which they were made. */
  turns: readonly ReportTurn[];
  setUps: readonly ReportSetUp[];
  /** What was in when the visit ended, or now. */
  pluggedIn: Readonly<Record<string, number>>;
}>;

/** The last link of the archive's chain of records. */
export type ChainHead = Readonly<{ device: string; seq: number; hash: string }>;

/** What holds for the whole report. */
export type ReportFrame = Readonly<{
  station: Station;
  revision: number;
  lineUp: readonly LineUpEntry[] | null;
  trims: readonly Trim[];
  truck: Truck | null;
  units: Readonly<{ levelUnit: LevelUnitWord; temperatureUnit: TemperatureUnit; lengthUnit: 'm' | 'ft' }>;
  head: ChainHead | null;
  /** The program that makes the report, and when. */
  program: string;
  madeAt: string;
  /** SHA-256 over one line a sweep: its hash, two spaces, its id, a line feed. */
  dataSha256: string;
}>;
