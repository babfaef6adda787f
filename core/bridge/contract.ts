import { z } from 'zod';
import { writtenLevelUnits } from '../files/level-unit.ts';
import { archiveCalls, archiveEvents } from './archive-calls.ts';
import { backupCalls, backupEvents } from './backup-calls.ts';
import { careCalls, careEvents } from './care-calls.ts';
import { cascadeCalls } from './cascade-calls.ts';
import { liveCalls, liveEvents } from './live-calls.ts';
import { meterCalls, meterEvents } from './meter-calls.ts';
import { qualityCalls } from './quality-calls.ts';
import {
  Change,
  ConnectedMeter,
  Fitting,
  FoundPort,
  Id,
  MeterChoice,
  ProposalNote,
  Purpose,
  Reading,
  StationRow,
  StationSheet,
  Sweep,
  SweepState,
  TrimTurn,
  Turn,
  Visit,
} from './records.ts';
import { reportCalls, reportEvents } from './report-calls.ts';
import { searchCalls } from './search-calls.ts';
import { setUpCalls } from './set-up-calls.ts';
import { settingsCalls, settingsEvents } from './settings-calls.ts';
import { transferCalls, transferEvents } from './transfer-calls.ts';
import { watchCalls, watchEvents } from './watch-calls.ts';

const Nothing = z.strictObject({});
const text = z.string().trim().min(1).max(400);
const fileText = z.string().max(20_000_000);
const frequenciesMhz = z.array(z.number().positive().max(3000)).min(1).max(2000);

/**
 * Every call across the boundary: what goes in, what comes out. The Electron window, the local browser and the tests
 * all derive from this; a handler that is missing or wrong does not compile.
 */
export const calls = {
  'host.describe': {
    in: Nothing,
    out: z.strictObject({
      version: z.string(),
      host: z.enum(['window', 'browser', 'memory']),
      archivePath: z.string(),
      /** Sweeps that a killed process had left running; they are marked partial and nothing read is lost. */
      recoveredSweeps: z.array(
        z.strictObject({ sweepId: Id, stationId: text, readingCount: z.number().int() }),
      ),
      profiles: z.array(z.strictObject({ name: text, title: text })),
    }),
  },
  /** Puts the invented network of Quillmere into the archive; calling it again changes nothing. */
  'demo.load': { in: Nothing, out: z.strictObject({ stationIds: z.array(text) }) },

  /**
   * All stations, or some of them. At once: where many would have to be judged, as after an update or with other settings,
   * most are left as they are; `waiting` names them, and their standings say what was read but not how it stands.
   */
  'stations.list': {
    in: z.strictObject({ atOnce: z.boolean().optional(), of: z.array(text).max(1000).optional() }),
    out: z.strictObject({ stations: z.array(StationRow), waiting: z.array(text).optional() }),
  },
  /**
   * A new station, or a new design revision of one with the same id. An identical design adds nothing. `basedOn` is the
   * revision that was looked at, 0 for a station that must be new; another newest one is refused.
   */
  'stations.import': {
    in: z.strictObject({
      fileName: text,
      text: fileText,
      basedOn: z.number().int().nonnegative().optional(),
    }),
    out: z.strictObject({ stationId: text, revision: z.number().int() }),
  },
  'stations.open': { in: z.strictObject({ stationId: text }), out: StationSheet },
  /** A station's file: its newest design, with what is plugged in now. */
  'stations.export': {
    in: z.strictObject({ stationId: text }),
    out: z.strictObject({ fileName: text, text: z.string() }),
  },

  'visits.begin': {
    in: z.strictObject({
      stationId: text,
      operator: z.string().trim().max(120),
      ambientC: z.number().min(-90).max(90).nullable(),
      cautionsRead: z.literal(true),
    }),
    out: Visit,
  },
  'visits.end': { in: z.strictObject({ visitId: Id, note: z.string().max(4000) }), out: Visit },

  'meters.find': {
    in: Nothing,
    /** `problem` says why the list may be incomplete; an empty list without a problem means that none is there. */
    out: z.strictObject({ ports: z.array(FoundPort), problem: z.string().nullable() }),
  },
  /** Opens the link and asks for the identity; the meter stays connected until another is chosen. */
  'meters.connect': { in: MeterChoice, out: ConnectedMeter },
  'meters.disconnect': { in: Nothing, out: Nothing },
  'meters.current': { in: Nothing, out: z.strictObject({ meter: ConnectedMeter.nullable() }) },

  /** Returns as soon as the sweep is in the archive; its readings follow as events, its end as one more. */
  'sweeps.start': {
    in: z.strictObject({
      visitId: Id,
      portName: text,
      purpose: Purpose,
      /** In any order; they are read in the one that settles quickest. */
      frequenciesMhz,
      /** So many readings make one, their mean; 1 unless told. */
      repeats: z.number().int().min(1).max(16).optional(),
    }),
    out: z.strictObject({ sweepId: Id }),
  },
  'sweeps.stop': { in: z.strictObject({ sweepId: Id }), out: Nothing },
  'sweeps.open': { in: z.strictObject({ sweepId: Id }), out: Sweep },
  'sweeps.import': {
    in: z.strictObject({
      visitId: Id,
      portName: text,
      purpose: Purpose,
      fileName: text,
      /** Its byte order mark kept. */
      text: fileText,
      /** In which its text gives every byte of the file again; of a paste none. UTF-8 unless told. */
      encoding: z.enum(['utf-8', 'utf-16le', 'utf-16be', 'windows-1252']).optional(),
      /** 0 when the file's levels are those of the port itself. */
      testPointLossDb: z.number().min(0).max(60),
      /** What the person said of the file where it does not say it itself. */
      told: z
        .strictObject({
          table: z.number().int().min(1).max(1000).optional(),
          frequencyUnit: z.enum(['Hz', 'kHz', 'MHz', 'GHz']).optional(),
          levelUnit: z.enum(writtenLevelUnits).optional(),
        })
        .optional(),
    }),
    out: z.strictObject({
      sweepId: Id,
      left: z.array(z.strictObject({ line: z.number().int(), reason: text })),
    }),
  },
  /** The file that a sweep was taken from, byte by byte. */
  'sweeps.original': {
    in: z.strictObject({ sweepId: Id }),
    out: z.strictObject({ fileName: text, base64: z.string() }),
  },
  'sweeps.export': {
    in: z.strictObject({ sweepId: Id }),
    out: z.strictObject({ fileName: text, text: z.string() }),
  },

  /** The technician says that these parts are in. Kept with the proposal that asked for them, in one transaction. */
  'parts.fit': {
    in: z.strictObject({
      visitId: Id,
      changes: z.array(Change).min(1).max(50),
      proposal: ProposalNote.nullable(),
    }),
    out: z.strictObject({ fittings: z.array(Fitting) }),
  },

  /** The technician says that these trims were turned as the proposal of that sweep asks. Their ranges follow. */
  'trims.turn': {
    in: z.strictObject({ visitId: Id, sweepId: Id, turns: z.array(Turn).min(1).max(4) }),
    out: z.strictObject({ turns: z.array(TrimTurn) }),
  },

  ...cascadeCalls,
  ...archiveCalls,
  ...liveCalls,
  ...setUpCalls,
  ...watchCalls,
  ...meterCalls,
  ...reportCalls,
  ...settingsCalls,
  ...qualityCalls,
  ...searchCalls,
  ...transferCalls,
  ...backupCalls,
  ...careCalls,
} as const;

/** Every event that a host sends by itself. */
export const events = {
  /** Sent after the reading is on disk, never before. */
  'sweep.reading': z.strictObject({
    sweepId: Id,
    index: z.number().int().min(0),
    plannedCount: z.number().int(),
    reading: Reading,
    /** How long the rest will take at the pace so far; absent while nothing is known of it. */
    leftMs: z.number().min(0).optional(),
  }),
  'sweep.ended': z.strictObject({
    sweepId: Id,
    stationId: text,
    state: SweepState,
    readingCount: z.number().int(),
    /** Null when complete; else what happened and what would help. */
    reason: z.string().nullable(),
  }),
  /** The meter in use came, went or was lost. */
  'meter.changed': z.strictObject({
    meter: ConnectedMeter.nullable(),
    /** Null when it was chosen or put away on purpose; else what happened to the link and what would help. */
    lost: z.string().nullable(),
  }),

  ...liveEvents,
  ...watchEvents,
  ...meterEvents,
  ...reportEvents,
  ...settingsEvents,
  ...transferEvents,
  ...backupEvents,
  ...careEvents,
  ...archiveEvents,
} as const;

export type CallName = keyof typeof calls;
export type EventName = keyof typeof events;
export type Input<N extends CallName> = z.infer<(typeof calls)[N]['in']>;
export type Output<N extends CallName> = z.infer<(typeof calls)[N]['out']>;
export type EventData<N extends EventName> = z.infer<(typeof events)[N]>;

/** What a host must do for each call. A person's mistake is thrown as `Refused`; anything else thrown is a fault. */
export type Handlers = {
  [N in CallName]: (input: Input<N>, signal: AbortSignal) => Promise<Output<N>>;
};

/** Sends one event to every client of a host. */
export type Emit = <N extends EventName>(name: N, data: EventData<N>) => void;
