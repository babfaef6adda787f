import { z } from 'zod';
import { Station } from '../files/station.ts';
import { Id, Moment, Standing } from './records.ts';

const text = z.string().trim().min(1).max(400);
const verdict = z.enum(['pass', 'fail', 'undecided']);
const db = z.number();
const moment = z.number().int().min(0);

/** What the table of all stations shows without looking into a history: one sweep is judged, the newest. */
export const QualityStation = z.strictObject({
  stationId: text,
  name: text,
  sweepCount: z.number().int().min(0),
  openVisit: z.boolean(),
  lastVisitAt: Moment.nullable(),
  standing: Standing.nullable(),
  /** Of the newest set-up that measured it: what was left below the maximum gain, and what the rule asks for. */
  reserve: z.strictObject({ leftDb: db, askedDb: db }).nullable(),
  /** Why it is out of service; not there while it is in. */
  outOfService: text.optional(),
});
export type QualityStation = z.infer<typeof QualityStation>;

/** What a look into the history adds: how the station goes, in words and as a small line. */
export const QualityTrend = z.strictObject({
  stationId: text,
  /** Whether some as-left sweep passed; null where none can be judged. */
  leftAsDesigned: z.boolean().nullable(),
  drift: z
    .strictObject({
      state: z.enum(['drifting', 'steady', 'unsure', 'too-few']),
      words: text,
      /** Of the figure that says so, dB a year; null below three sweeps. */
      perYearDb: db.nullable(),
      /** That figure of the newest stretch, at one temperature, dB: the small line. */
      line: z.array(db),
    })
    .nullable(),
});
export type QualityTrend = z.infer<typeof QualityTrend>;

/** One as-found or as-left sweep of a station's port as its history shows it. */
export const HistorySweep = z.strictObject({
  sweepId: Id,
  visitId: Id,
  at: Moment,
  purpose: z.enum(['as-found', 'as-left']),
  operator: z.string(),
  ambientC: z.number().nullable(),
  revision: z.number().int().positive(),
  pluggedIn: z.record(z.string(), z.number()),
  /** Null where it is partial or can't be judged; `why` then says so, and it is in no trend. */
  figures: z
    .strictObject({ verdict, levelDb: db, tiltDb: db, flatnessDb: db, worstDb: db, worstMhz: z.number() })
    .nullable(),
  why: z.string().nullable(),
  /** The reserve that the set-up of its visit left, dB. */
  reserveDb: db.nullable(),
});
export type HistorySweep = z.infer<typeof HistorySweep>;

export const StationHistory = z.strictObject({
  /** As it was when its newest sweep was read. */
  station: Station,
  portName: text,
  /** The ports with a design that were ever swept as found or as left. */
  portNames: z.array(text),
  /** In the order of time. */
  sweeps: z.array(HistorySweep),
  /** Of the set-ups that measured it, in the order of time: what each left, and what the rule asked for on that day. */
  reserves: z.array(z.strictObject({ visitId: Id, at: Moment, leftDb: db, askedDb: db })),
});
export type StationHistory = z.infer<typeof StationHistory>;

const PeriodStanding = z.strictObject({
  sweepId: Id,
  portName: text,
  atMs: moment,
  verdict: verdict.nullable(),
  headline: z.string(),
  worstDb: db.nullable(),
  worstMhz: z.number().nullable(),
});

/** Exactly core/drift/period-batch.ts, times in milliseconds as there. */
export const PeriodAnswer = z.strictObject({
  fromMs: moment,
  toMs: moment,
  visits: z.array(
    z.strictObject({
      visitId: Id,
      stationId: text,
      stationName: text,
      operator: z.string(),
      ambientC: z.number().nullable(),
      startedMs: moment,
      endedMs: moment.nullable(),
      note: z.string(),
      sweepCount: z.number().int().min(0),
      before: PeriodStanding.nullable(),
      after: PeriodStanding.nullable(),
      changes: z.array(z.strictObject({ position: text, fromDb: db, toDb: db })),
    }),
  ),
  totals: z.strictObject({
    visits: z.number().int(),
    stations: z.number().int(),
    sweeps: z.number().int(),
    leftPass: z.number().int(),
    leftFail: z.number().int(),
    leftUndecided: z.number().int(),
    notLeft: z.number().int(),
    putRight: z.number().int(),
  }),
});

export const qualityCalls = {
  /** A page of all stations in the order in which they were added; `after` is the `next` of the page before, 0 for the first. */
  'quality.stations': {
    in: z.strictObject({ after: z.number().int().min(0), limit: z.number().int().min(1).max(1000) }),
    out: z.strictObject({
      stations: z.array(QualityStation),
      total: z.number().int().min(0),
      next: z.number().int().nullable(),
    }),
  },
  /** The histories of some stations, looked through; a station without one is in the answer as well. */
  'quality.trends': {
    in: z.strictObject({ stationIds: z.array(text).min(1).max(500) }),
    out: z.strictObject({ trends: z.array(QualityTrend) }),
  },
  /** One port's history; null for the port that has most to tell. */
  'quality.history': {
    in: z.strictObject({ stationId: text, portName: text.nullable() }),
    out: StationHistory,
  },
  /** Every visit that began in a period, with how the station was found and left. */
  'quality.period': { in: z.strictObject({ from: Moment, to: Moment }), out: PeriodAnswer },
} as const;
