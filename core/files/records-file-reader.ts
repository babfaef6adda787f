import { canonicalText, type PlainObject } from '../records/canonical-text.ts';
import { linkHash } from '../records/chain.ts';
import { done, type Refusal, type Result, refuse } from '../result.ts';
import { checkedRecord } from './record-documents.ts';
import { recordName, referencesOf, travels } from './record-references.ts';
import { type RecordsHeader, type RecordsLine, readRecordsLine } from './records-file.ts';

/** A file of records that was read to its end. */
export type WholeRecords = Readonly<{ header: RecordsHeader; records: number }>;

export type RecordsReader = Readonly<{
  /** The next line, without its newline; null for the header and the end. */
  line(text: string): Result<RecordsLine | null>;
  /** After the last line. */
  finish(): Result<WholeRecords>;
  header(): RecordsHeader | null;
}>;

export type RecordChecks = Readonly<{
  /** SHA-256 of a text's UTF-8 bytes, as 64 hexadecimal digits. */
  sha256Hex: (text: string) => string;
  /** SHA-256 of all bytes of the file before the line that is being read, newlines included. */
  before: () => string;
  /** Whether what a record of this form holds can be shown and kept. */
  contents: (kind: string, document: PlainObject, where: string) => Result<null>;
}>;

/**
 * Reads a file of records line by line and believes nothing: every record's form, contents, name and hash, that what it
 * names came before it and is of the same station, and the hash over the whole.
 * @param name  the file's, for refusals
 * @returns  a reader; each of its answers is a record, or why the whole file is refused
 * @source   this project's own format; SHA-256: FIPS 180-4
 */
export function createRecordsReader(name: string, checks: RecordChecks): RecordsReader {
  let place = 0;
  let header: RecordsHeader | null = null;
  let records = 0;
  let ended = false;
  /** Kind and name, and the station it is of. */
  const seen = new Map<string, string | null>();
  const stations = new Set<string>();

  const misplaced = (record: RecordsLine, where: string): Refusal | null => {
    const station = record.document.stationId;
    let of = typeof station === 'string' ? station : null;
    for (const { kind, id } of referencesOf(record.kind, record.document)) {
      const at = seen.get(`${kind} ${id}`);
      if (at === undefined)
        return refuse(
          'missing-record',
          where,
          `names a ${kind} that the file has not, or not before it; make it anew`,
        );
      if (at === null) continue;
      if (of !== null && of !== at)
        return refuse('not-a-record', where, `names a ${kind} of another station`);
      of = at;
    }
    if (record.kind === 'design' && of !== null) stations.add(of);
    if (of !== null && !stations.has(of))
      return refuse(
        'missing-record',
        where,
        `is of the station ${of}, whose design is not before it; make it anew`,
      );
    seen.set(`${record.kind} ${record.id}`, of);
    return null;
  };

  function checked(record: RecordsLine, where: string): Result<RecordsLine> {
    const { kind, document, device, seq, previous } = record;
    if (!travels(kind) && checkedRecord(kind, document, where).ok)
      return refuse(
        'unknown-record',
        where,
        `a ${kind} is one laptop's own and does not travel; make the file anew`,
      );
    const form = checkedRecord(kind, document, where);
    if (!form.ok) return form;
    const contents = checks.contents(kind, document, where);
    if (!contents.ok) return contents;
    try {
      if (recordName(kind, document, () => checks.sha256Hex(canonicalText(document))) !== record.id)
        return refuse('not-a-record', where, 'is called otherwise than what it says; copy the file again');
      if (linkHash({ device, seq, previous }, kind, document, checks.sha256Hex) !== record.hash)
        return refuse('changed', where, 'is not what was recorded: its hash is another; copy the file again');
    } catch (fault) {
      if (fault instanceof RangeError) return refuse('not-a-record', where, fault.message);
      throw fault;
    }
    return misplaced(record, where) ?? done(record);
  }

  return {
    header: () => header,
    line(text) {
      place += 1;
      const where = `${name}, line ${place}`;
      if (ended) return refuse('bad-line', where, 'something follows the end; copy the file again');
      const read = readRecordsLine(text, place, name);
      if (!read.ok) return read;
      const line = read.value;
      switch (line.is) {
        case 'header':
          header = line.header;
          return done(null);
        case 'end':
          if (line.end.records !== records)
            return refuse(
              'changed',
              where,
              `${line.end.records} records were put in, and ${records} are here`,
            );
          if (line.end.sha256 !== checks.before())
            return refuse(
              'changed',
              where,
              'the file is not what was made: its hash is another; copy it again',
            );
          ended = true;
          return done(null);
        case 'record':
          records += 1;
          return checked(line.record, where);
      }
    },
    finish() {
      if (header === null)
        return refuse('incomplete', name, 'the file is empty; wait until it is copied whole');
      return ended
        ? done({ header, records })
        : refuse('incomplete', name, 'the file is not whole; wait until it is copied, or copy it again');
    },
  };
}
