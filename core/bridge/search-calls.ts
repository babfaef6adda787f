import { z } from 'zod';
import { Id, Moment, Purpose } from './records.ts';

const text = z.string().trim().min(1).max(400);

/** A visit that has the words, with the newest sweep of it that can be looked at. */
export const FoundVisit = z.strictObject({
  visitId: Id,
  stationId: text,
  stationName: text,
  operator: z.string(),
  /** Empty while the visit is open, or where nothing was noted. */
  note: z.string(),
  startedAt: Moment,
  sweep: z.strictObject({ sweepId: Id, portName: text }).nullable(),
});
export type FoundVisit = z.infer<typeof FoundVisit>;

export const FoundSweep = z.strictObject({
  sweepId: Id,
  stationId: text,
  stationName: text,
  portName: text,
  purpose: Purpose,
  operator: z.string(),
  /** The file that it was taken from; null where a meter read it. */
  fileName: z.string().nullable(),
  startedAt: Moment,
});
export type FoundSweep = z.infer<typeof FoundSweep>;

export const searchCalls = {
  /**
   * Visits by operator and note, sweeps by port, purpose and file, both by their station, their day and the beginning of
   * their id (as a label's code has it). Every word must be found; the newest come first. Readings are not looked into.
   */
  'search.records': {
    in: z
      .strictObject({
        /** In any order, without regard to capitals. May be none where days are named. */
        words: z.array(text).max(8),
        /** The days that it is about, the second moment not among them. */
        days: z.strictObject({ from: Moment, before: Moment }).nullable(),
        most: z.number().int().min(1).max(50),
      })
      .refine(({ words, days }) => words.length > 0 || days !== null, 'name a word or a day'),
    out: z.strictObject({ visits: z.array(FoundVisit), sweeps: z.array(FoundSweep) }),
  },
} as const;
