import { z } from 'zod';
import type { PlainObject } from '../records/canonical-text.ts';
import { done, type Result, refuse } from '../result.ts';

/*
 * The file in which records go from one laptop to another: lines of JSON in UTF-8, packed by gzip (RFC 1952). The first
 * says who made it and what it is of, the last closes it with a SHA-256 over all bytes before it; between them is a line
 * a record, each after those that it names.
 */
export const RECORDS_FORMAT = 'tiltwright-records/1';
/** What such a file's name ends with. */
export const RECORDS_ENDING = '.records.gz';

const hash = z.string().regex(/^[0-9a-f]{64}$/);
const device = z.uuid();
const atMs = z.int().min(0).max(253_402_300_799_999);

/** What a file was asked to hold. */
export const RecordsScope = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('everything') }),
  z.strictObject({ kind: z.literal('station'), stationId: z.string().min(1).max(400) }),
  /** Visits that began in it; `toMs` is not included. */
  z.strictObject({ kind: z.literal('period'), fromMs: atMs, toMs: atMs }),
  z.strictObject({
    kind: z.literal('station-period'),
    stationId: z.string().min(1).max(400),
    fromMs: atMs,
    toMs: atMs,
  }),
]);
export type RecordsScope = z.infer<typeof RecordsScope>;

export const RecordsHeader = z.strictObject({
  format: z.literal(RECORDS_FORMAT),
  device,
  madeAtMs: atMs,
  program: z.string(),
  what: RecordsScope,
  /** The newest record of the laptop that made the file. */
  head: z.strictObject({ seq: z.int().min(0), hash }),
});
export type RecordsHeader = z.infer<typeof RecordsHeader>;

const RecordsLine = z.strictObject({
  device,
  seq: z.int().min(1),
  previous: hash,
  hash,
  kind: z.string().min(1).max(40),
  id: z.string().min(1).max(100),
  document: z.custom<PlainObject>(
    (value) => typeof value === 'object' && value !== null && !Array.isArray(value),
  ),
  /** What belongs to the record and is no text of it, as base64; its hashes are in the record. */
  attachments: z.record(z.string().max(40), z.string()).optional(),
});
export type RecordsLine = z.infer<typeof RecordsLine>;

const RecordsEnd = z.strictObject({ end: z.literal(true), records: z.int().min(0), sha256: hash });
export type RecordsEnd = z.infer<typeof RecordsEnd>;

/**
 * A line of the file, its newline included.
 * @source  this project's own format; JSON: RFC 8259
 */
export const recordsText = (line: RecordsHeader | RecordsLine | RecordsEnd): string =>
  `${JSON.stringify(line)}\n`;

type ReadLine =
  | Readonly<{ is: 'header'; header: RecordsHeader }>
  | Readonly<{ is: 'record'; record: RecordsLine }>
  | Readonly<{ is: 'end'; end: RecordsEnd }>;

/**
 * One line, read for what its place in the file asks.
 * @param text   without its newline
 * @param place  from 1
 * @param name   the file's, for a refusal
 * @returns  what it is, or why the file is refused: no records file, of a newer form, or a line that is none of ours
 * @source   this project's own format
 */
export function readRecordsLine(
  text: string,
  place: number,
  name: string,
): Result<ReadLine, 'not-records' | 'newer-records' | 'bad-line'> {
  const where = `${name}, line ${place}`;
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return place === 1
      ? refuse('not-records', name, `no file of records; choose one that ends with ${RECORDS_ENDING}`)
      : refuse('bad-line', where, 'the line is damaged; copy the file again');
  }
  if (place === 1) {
    const format = z.looseObject({ format: z.string() }).safeParse(value);
    if (!format.success || !/^tiltwright-records\/\d+$/.test(format.data.format))
      return refuse('not-records', name, `no file of records; choose one that ends with ${RECORDS_ENDING}`);
    if (format.data.format !== RECORDS_FORMAT)
      return refuse(
        'newer-records',
        name,
        `of the form ${format.data.format}; take it in with a newer program`,
      );
    const header = RecordsHeader.safeParse(value);
    return header.success
      ? done({ is: 'header', header: header.data })
      : refuse('bad-line', where, `the header is damaged (${pathOf(header.error)}); copy the file again`);
  }
  const end = RecordsEnd.safeParse(value);
  if (end.success) return done({ is: 'end', end: end.data });
  const record = RecordsLine.safeParse(value);
  return record.success
    ? done({ is: 'record', record: record.data })
    : refuse('bad-line', where, `no record (${pathOf(record.error)}); make the file anew`);
}

const pathOf = (error: z.ZodError): string => {
  const [first] = error.issues;
  return `${first?.path.join('.') ?? ''}: ${first?.message ?? 'not as it must be'}`;
};
