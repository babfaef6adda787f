import { z } from 'zod';
import { RecordsScope } from '../files/records-file.ts';
import { ChainHead } from './archive-calls.ts';
import { Id, Moment } from './records.ts';

const text = z.string().trim().min(1).max(400);
const path = z.string().trim().min(1).max(4000);
const count = z.number().int().min(0);
const base64 = z.base64().max(2_000_000);

/** What became of a file of records. */
export const TakenFile = z.strictObject({
  fileName: z.string(),
  /** `own`: made by this laptop. `before`: taken in earlier. `incomplete`: still being copied, or cut off. */
  became: z.enum(['taken-in', 'nothing-new', 'before', 'own', 'incomplete', 'refused']),
  /** Why it was not taken in; null where it was. */
  why: z.string().nullable(),
  added: count,
  sweeps: count,
  conflicts: count,
});
export type TakenFile = z.infer<typeof TakenFile>;

/** Two records of one name that say otherwise: the one that counts here, and the one that came with a file. */
export const Conflict = z.strictObject({
  kind: z.string(),
  id: z.string(),
  /** Null where it is of no station. */
  stationName: z.string().nullable(),
  takenAt: Moment,
  here: z.strictObject({ device: Id, seq: count }).nullable(),
  other: z.strictObject({ device: Id, seq: count }),
  differences: z.array(z.strictObject({ key: z.string(), here: z.string(), other: z.string() })),
});
export type Conflict = z.infer<typeof Conflict>;

export const transferCalls = {
  /** This laptop's name in its records, what was taken in (the newest first) and where two records say otherwise. */
  'transfer.look': {
    in: z.strictObject({}),
    out: z.strictObject({
      head: ChainHead,
      files: z.array(
        z.strictObject({
          fileName: z.string(),
          device: Id,
          madeAt: Moment,
          takenAt: Moment,
          operator: z.string(),
          added: count,
          conflicts: count,
        }),
      ),
      conflicts: z.array(Conflict),
    }),
  },
  /** Writes records into a file of that folder; without one the file is fetched in parts. A cancelled call leaves no file. */
  'transfer.give': {
    in: z.strictObject({ what: RecordsScope, folder: path.nullable() }),
    out: z.strictObject({
      fileName: text,
      /** Null where it went into the folder. */
      file: Id.nullable(),
      records: count,
      sweeps: count,
      bytes: count,
    }),
  },
  /** A part of a file that was made to be fetched; `base64` is empty at its end, and the file is gone then. */
  'transfer.part': {
    in: z.strictObject({ file: Id, from: count }),
    out: z.strictObject({ base64: z.base64() }),
  },
  /** Brings a part of a file that is to be taken in; the first makes it. */
  'transfer.put': { in: z.strictObject({ file: Id, base64 }), out: z.strictObject({}) },
  /** Takes in the file that was brought, or every file of a folder that is new. A cancelled call keeps what is whole. */
  'transfer.take': {
    in: z.strictObject({
      from: z.discriminatedUnion('kind', [
        z.strictObject({ kind: z.literal('file'), file: Id, fileName: text }),
        z.strictObject({ kind: z.literal('folder'), folder: path }),
      ]),
      operator: z.string().trim().max(120),
    }),
    out: z.strictObject({ files: z.array(TakenFile) }),
  },
} as const;

export const transferEvents = {
  /** How far a file is: records given, or bytes read. */
  'transfer.progress': z.strictObject({
    way: z.enum(['give', 'take']),
    fileName: z.string(),
    /** Which of how many files. */
    place: z.number().int().min(1),
    count: z.number().int().min(1),
    done: count,
    /** Null while nobody knows. */
    total: count.nullable(),
    /** Everything is read; it waits until the running sweep has ended. */
    waits: z.boolean(),
  }),
} as const;
