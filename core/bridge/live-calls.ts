import { z } from 'zod';
import { Id, Moment } from './records.ts';

const Nothing = z.strictObject({});
const text = z.string().trim().min(1).max(400);
const mhz = z.number().positive().max(3000);

/** One level watched live. It is kept like a sweep: each reading is on disk before anybody hears of it. */
export const LiveRun = z.strictObject({
  liveId: Id,
  stationId: text,
  visitId: Id.nullable(),
  portName: text,
  frequencyMhz: mhz,
  /** Added to a reading it gives the level at the port. */
  testPointLossDb: z.number().min(0),
  startedAt: Moment,
});
export type LiveRun = z.infer<typeof LiveRun>;

/** `elapsedMs` is on a clock that never goes back, from the start of the run; `seq` counts from 0 without a gap. */
export const LiveReading = z.strictObject({
  seq: z.number().int().min(0),
  elapsedMs: z.number().int().min(0),
  takenAt: Moment,
  meterDbmv: z.number().nullable(),
});
export type LiveReading = z.infer<typeof LiveReading>;

/** At most so many readings an answer of `live.open`. */
export const LIVE_PAGE = 2000;

/** What a hand does at a simulated station. `turnDb` up is positive, as the level at the output moves. */
export const SimulatedHand = z.discriminatedUnion('act', [
  z.strictObject({ act: z.literal('turn'), turnDb: z.number().min(-60).max(60) }),
  z.strictObject({ act: z.literal('mode'), mode: z.enum(['manual', 'auto']) }),
  /** A new module, seated with its control at the low end; its reach from the level of the design. */
  z.strictObject({
    act: z.literal('exchange'),
    upDb: z.number().min(0).max(30),
    downDb: z.number().min(0).max(30),
  }),
  z.strictObject({ act: z.literal('pilot'), present: z.boolean() }),
  z.strictObject({ act: z.literal('weather'), ambientC: z.number().min(-90).max(90) }),
]);
export type SimulatedHand = z.infer<typeof SimulatedHand>;

/** A simulated gain-control module as it stands now. Positions in dB from the level of the design, at the top frequency. */
export const SimulatedModule = z.strictObject({
  mode: z.enum(['manual', 'auto']),
  controlDb: z.number(),
  lowestDb: z.number(),
  highestDb: z.number(),
  /** Whether the hand's control is at one of its ends. */
  handAtEnd: z.enum(['low', 'high']).nullable(),
  pilotPresent: z.boolean(),
  ambientC: z.number(),
});
export type SimulatedModule = z.infer<typeof SimulatedModule>;

export const liveCalls = {
  /**
   * Watches one frequency until it is stopped, the meter is lost, or no page has been there for a minute. One at a time,
   * and never under a running sweep. Readings follow as events, 5 to 20 a second, at the meter's pace.
   */
  'live.start': {
    in: z.strictObject({ stationId: text, visitId: Id.nullable(), portName: text, frequencyMhz: mhz }),
    out: LiveRun,
  },
  /** One that has ended meanwhile needs no stopping. */
  'live.stop': { in: z.strictObject({ liveId: Id }), out: Nothing },
  /** What is running, so that a page that was loaded again finds it. */
  'live.current': { in: Nothing, out: z.strictObject({ live: LiveRun.nullable() }) },
  'live.open': {
    in: z.strictObject({ liveId: Id, fromSeq: z.number().int().min(0) }),
    out: z.strictObject({
      run: LiveRun,
      running: z.boolean(),
      /** Null while it runs and when it was stopped by hand. */
      endReason: z.string().nullable(),
      readingCount: z.number().int().min(0),
      /** From `fromSeq` on, at most `LIVE_PAGE`. */
      readings: z.array(LiveReading),
    }),
  },
  /** A hand at a simulated station; kept, so that the station stands the same after a restart. */
  'simulate.hand': {
    in: z.strictObject({ stationId: text, hand: SimulatedHand }),
    out: SimulatedModule,
  },
  /** Null where the simulated station has no gain control. */
  'simulate.module': {
    in: z.strictObject({ stationId: text }),
    out: z.strictObject({ module: SimulatedModule.nullable() }),
  },
} as const;

export const liveEvents = {
  /** Sent after the reading is on disk, never before. */
  'live.reading': z.strictObject({ liveId: Id, ...LiveReading.shape, testPointLossDb: z.number().min(0) }),
  'live.ended': z.strictObject({
    liveId: Id,
    readingCount: z.number().int().min(0),
    /** Null when it was stopped by hand; else what happened and what would help. */
    reason: z.string().nullable(),
  }),
} as const;
