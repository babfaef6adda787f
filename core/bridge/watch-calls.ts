import { z } from 'zod';
import { Id, MeterChoice, MeterIdentity, Moment } from './records.ts';

const text = z.string().trim().min(1).max(400);
const mhz = z.number().positive().max(3000);
const Nothing = z.strictObject({});
const ambientC = z.number().min(-90).max(90);

export const WATCH_LIMITS = { everyS: { from: 2, to: 86_400 }, forS: { from: 10, to: 40 * 86_400 } } as const;

/** A watch that is not running any more: to its planned end, stopped by hand, or cut short. */
export const WatchState = z.enum(['running', 'complete', 'stopped', 'cut-short']);
export type WatchState = z.infer<typeof WatchState>;

export const WatchSummary = z.strictObject({
  watchId: Id,
  stationId: text,
  visitId: Id.nullable(),
  portName: text,
  testPointLossDb: z.number().min(0),
  frequenciesMhz: z.array(mhz),
  /** The one of them that the gain control listens to, where there is one. */
  pilotMhz: mhz.nullable(),
  everyS: z.number(),
  /** Null: until it is stopped. */
  forS: z.number().nullable(),
  startedAt: Moment,
  state: WatchState,
  endedAt: Moment.nullable(),
  endReason: z.string().nullable(),
  /** Rounds so far, read and missed; a round's number times `everyS` is when it was due. */
  roundCount: z.number().int().min(0),
  missedCount: z.number().int().min(0),
  /** The meter in use now or last. */
  meter: z.strictObject({ choice: MeterChoice, identity: MeterIdentity }),
});
export type WatchSummary = z.infer<typeof WatchSummary>;

/**
 * One round, or a gap. A gap is `rounds` rounds in a row of which nothing was read, and says why; a round that was read
 * has `gap` null and `rounds` 1.
 */
export const WatchRound = z.strictObject({
  /** Counts from 0; the next one is `round` + `rounds`. */
  round: z.number().int().min(0),
  rounds: z.number().int().min(1),
  at: Moment,
  gap: z.string().nullable(),
  levels: z.array(z.strictObject({ frequencyMhz: mhz, meterDbmv: z.number().nullable() })),
});
export type WatchRound = z.infer<typeof WatchRound>;

/** The temperature of the air as somebody noted it; between two notes it is taken as a straight line. */
export const WatchTemperature = z.strictObject({ at: Moment, ambientC });
export type WatchTemperature = z.infer<typeof WatchTemperature>;

export const watchCalls = {
  /**
   * Reads some frequencies every so often, for hours or days, without anybody there; goes on after a lost meter, sleep
   * and a restart, and keeps gaps as gaps. One at a time. Between its rounds the meter is free for everything else.
   */
  'watch.start': {
    in: z.strictObject({
      stationId: text,
      visitId: Id.nullable(),
      portName: text,
      frequenciesMhz: z.array(mhz).min(1).max(200),
      pilotMhz: mhz.nullable(),
      everyS: z.number().min(WATCH_LIMITS.everyS.from).max(WATCH_LIMITS.everyS.to),
      forS: z.number().min(WATCH_LIMITS.forS.from).max(WATCH_LIMITS.forS.to).nullable(),
      ambientC: ambientC.nullable(),
    }),
    out: WatchSummary,
  },
  'watch.stop': { in: z.strictObject({ watchId: Id }), out: WatchSummary },
  /** Notes the temperature of the air now. */
  'watch.temperature': { in: z.strictObject({ watchId: Id, ambientC }), out: Nothing },
  'watch.current': { in: Nothing, out: z.strictObject({ watch: WatchSummary.nullable() }) },
  'watch.open': {
    in: z.strictObject({ watchId: Id }),
    out: z.strictObject({
      watch: WatchSummary,
      rounds: z.array(WatchRound),
      temperatures: z.array(WatchTemperature),
    }),
  },
  /** Newest first. */
  'watch.list': {
    in: z.strictObject({ stationId: text }),
    out: z.strictObject({ watches: z.array(WatchSummary) }),
  },
} as const;

export const watchEvents = {
  /** Sent after it is on disk, never before. */
  'watch.round': z.strictObject({ watchId: Id, round: WatchRound }),
  'watch.ended': z.strictObject({ watch: WatchSummary }),
} as const;
