import { z } from 'zod';
import { Id } from './records.ts';

const count = z.number().int().min(0);
const text = z.string().trim().min(1).max(400);

/** A sweep whose last readings or end the disk refused. They are in memory, and lost when the program ends before they are kept. */
export const HeldSweep = z.strictObject({
  sweepId: Id,
  stationId: text,
  stationName: text,
  portName: text,
  onDisk: count,
  /** 0 where only its end could not be written. */
  inMemory: count,
  /** In one line: what happened and what would help. */
  why: z.string(),
});
export type HeldSweep = z.infer<typeof HeldSweep>;

/** How the archive and its disk fare. */
export const Care = z.strictObject({
  held: z.array(HeldSweep),
  /** Room that is kept on the disk for a sweep in need: there, given up in need, or none could be made. */
  ballast: z.enum(['there', 'given-up', 'none']),
  ballastBytes: count,
  freeBytes: count,
  /** With less than this free nothing is begun and no ballast is made again. */
  neededBytes: count,
  /** Why the folder is no good place for an archive, and what would help; null where it is one. */
  folderWarning: z.string().nullable(),
});
export type Care = z.infer<typeof Care>;

export const careCalls = {
  'care.read': { in: z.strictObject({}), out: Care },
  /** Tries once more to write what the disk refused. Refused in one line where it still takes no more. */
  'care.keep': { in: z.strictObject({}), out: Care },
} as const;

export const careEvents = {
  'care.changed': Care,
} as const;
