import { z } from 'zod';
import { Id, Purpose, SweepSummary } from './records.ts';

const text = z.string().trim().min(1).max(400);
const hash = z.string().regex(/^[0-9a-f]{64}$/);

/** The newest record of this archive's own chain. Kept elsewhere, on paper or in a file, it proves all before it. */
export const ChainHead = z.strictObject({
  device: Id,
  /** How many records the chain has; 0 while it has none. */
  seq: z.number().int().min(0),
  hash,
});
export type ChainHead = z.infer<typeof ChainHead>;

/** Where the archive is not what was recorded. */
export const Break = z.strictObject({
  device: Id,
  /** Its place in the device's chain; null for what has none. */
  seq: z.number().int().min(1).nullable(),
  kind: z.string(),
  id: z.string().nullable(),
  what: z.enum(['changed', 'missing', 'unreadable', 'out-of-order', 'unlinked']),
  /** In one line. */
  words: z.string(),
});
export type Break = z.infer<typeof Break>;

export const archiveCalls = {
  /** Declares a sweep void: it stays, with the reason, and nothing is judged by it any more. */
  'sweeps.void': {
    in: z.strictObject({ sweepId: Id, reason: text, operator: text.max(120) }),
    out: SweepSummary,
  },
  /** Adds a sweep with the same readings that says right what was noted wrongly with them. Both are kept and shown. */
  'sweeps.correct': {
    in: z.strictObject({
      sweepId: Id,
      reason: text,
      operator: text.max(120),
      testPointLossDb: z.number().min(0).max(60).optional(),
      portName: text.optional(),
      purpose: Purpose.optional(),
      ambientC: z.number().min(-90).max(90).nullable().optional(),
    }),
    out: SweepSummary,
  },
  /** Looks at every record again and holds it against the chain. */
  'archive.verify': {
    in: z.strictObject({}),
    out: z.strictObject({
      records: z.number().int().min(0),
      sweeps: z.number().int().min(0),
      /** In the order of each chain; the first 1000. */
      broken: z.array(Break),
      head: ChainHead,
    }),
  },
} as const;

export const archiveEvents = {
  /** How many records a check has looked at, of about how many. */
  'verify.progress': z.strictObject({ done: z.number().int().min(0), total: z.number().int().min(0) }),
} as const;
