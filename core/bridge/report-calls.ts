import { z } from 'zod';
import { Id, Moment } from './records.ts';

const text = z.string().trim().min(1).max(400);

/** What is put on paper. */
export const ReportOf = z.discriminatedUnion('kind', [
  /** One visit: what was found, done and left. */
  z.strictObject({ kind: z.literal('visit'), visitId: Id }),
  /** Every visit to a station. */
  z.strictObject({ kind: z.literal('history'), stationId: text }),
  /** Every visit that began in a period; `to` is not included. The clock is that of the machine which prints it. */
  z.strictObject({ kind: z.literal('period'), from: Moment, to: Moment }),
  /** A label for the inside of the lid, as often as it is wanted. */
  z.strictObject({ kind: z.literal('label'), visitId: Id, count: z.number().int().min(1).max(200) }),
]);
export type ReportOf = z.infer<typeof ReportOf>;

export const ReportForm = z.enum(['pdf', 'html']);
export type ReportForm = z.infer<typeof ReportForm>;

export const reportCalls = {
  /** A report as a whole file; the page saves it. A cancelled call ends the work. */
  'reports.make': {
    in: z.strictObject({ of: ReportOf, form: ReportForm, paper: z.enum(['a4', 'letter']) }),
    out: z.strictObject({ fileName: text, mediaType: text, base64: z.base64() }),
  },
} as const;

export const reportEvents = {
  /** How far a report with several visits has come. */
  'reports.progress': z.strictObject({
    of: ReportOf,
    done: z.number().int().min(0),
    total: z.number().int().min(1),
  }),
} as const;
