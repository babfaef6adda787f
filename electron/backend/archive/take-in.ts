import { createHash } from 'node:crypto';
import DatabaseFile, { type Database } from 'better-sqlite3';
import { z } from 'zod';
import { encoded } from '../../../core/files/encoded.ts';
import type { RecordsLine } from '../../../core/files/records-file.ts';
import type { Plain, PlainObject } from '../../../core/records/canonical-text.ts';
import { packReadings, unpackFrequencies, unpackReadings } from '../../../core/records/pack-readings.ts';
import { done, type Result, refuse } from '../../../core/result.ts';
import type { Chain } from './chain.ts';
import { recordPutter } from './put-record.ts';
import { recordPlaces, type ToldLink } from './record-places.ts';
import type { Session } from './session.ts';

/** Where a file came from, kept with what it brought. */
export type Provenance = Readonly<{
  sha256: string;
  fileName: string;
  /** The laptop that made it, and when. */
  device: string;
  madeAtMs: number;
  takenAtMs: number;
  operator: string;
}>;
/** What a file brought. */
export type Brought = Readonly<{
  records: number;
  added: number;
  known: number;
  conflicts: number;
  sweeps: number;
}>;

export type TakeIn = Readonly<{
  /** A checked record of the file, put aside; nothing is in the archive before `keep`. */
  stage(record: RecordsLine, where: string): Result<null>;
  /** All of it or nothing. Inside the caller's transaction. */
  keep(from: Provenance): Brought;
  /** Lets what was put aside go. */
  close(): void;
}>;

const Raw = z.looseObject({ form: z.string(), count: z.number(), sha256: z.string() }).nullable();
const Written = z.looseObject({
  encoding: z.enum(['utf-16le', 'utf-16be', 'windows-1252']),
  sha256: z.string(),
});
const Readings = z.looseObject({
  frequencyHz: z.array(z.number()),
  meterMdbmv: z.array(z.number().nullable()),
  kind: z.array(z.enum(['analog', 'qam', 'ofdm', 'cw']).nullable()),
  takenAtMs: z.array(z.number()),
});
type Staged = Readonly<{
  device: string;
  seq: number;
  previous: string;
  hash: string;
  kind: string;
  id: string;
  document: string;
  attachments: string | null;
  frequencies: Uint8Array | null;
  body: Uint8Array | null;
  count: number | null;
}>;

const RAW = /^raw-(\d+)$/;
const bytesOf = (base64: string) => Buffer.from(base64, 'base64');

/** Whether a file that is not in UTF-8 comes to its bytes again. */
function bytesFit(told: Plain | undefined, file: string | undefined): boolean {
  if (told === undefined) return true;
  const { encoding, sha256 } = Written.parse(told);
  const bytes = file === undefined ? null : encoded(bytesOf(file).toString('utf8'), encoding);
  return bytes !== null && createHash('sha256').update(bytes).digest('hex') === sha256;
}

/** Whether what travels beside a sweep is what its record says. */
function attachmentsFit({ kind, document, attachments = {} }: RecordsLine, where: string): Result<null> {
  const names = Object.keys(attachments);
  if (kind !== 'sweep')
    return names.length === 0 ? done(null) : refuse('not-a-record', where, `a ${kind} has nothing beside it`);
  const raw = Raw.parse(document.raw);
  const wanted = raw === null ? 0 : raw.form === 'whole' ? 1 : raw.count;
  const hash = createHash('sha256');
  for (let i = 0; i < wanted; i += 1) {
    const portion = attachments[`raw-${i}`];
    if (portion === undefined)
      return refuse('changed', where, 'the bytes of its meter are missing; copy the file again');
    hash.update(bytesOf(portion));
  }
  if (raw !== null && hash.digest('hex') !== raw.sha256)
    return refuse(
      'changed',
      where,
      'the bytes of its meter are not those that were read; copy the file again',
    );
  const file = attachments.file;
  const told = document.fileSha256;
  const got = file === undefined ? null : createHash('sha256').update(bytesOf(file)).digest('hex');
  if (got !== told)
    return refuse('changed', where, 'its source file is missing or another; copy the file again');
  if (!bytesFit(document.fileWritten, file))
    return refuse('changed', where, 'its source file is not written as the record says; copy the file again');
  const known = names.every((name) => name === 'file' || Number(RAW.exec(name)?.[1] ?? wanted) < wanted);
  return known ? done(null) : refuse('not-a-record', where, 'something is beside it that it does not name');
}

function packedOf(document: PlainObject) {
  const { frequencyHz, meterMdbmv, kind, takenAtMs } = Readings.parse(document.readings);
  const rows = frequencyHz.map((hz, i) => ({
    frequencyHz: hz,
    meterMdbmv: meterMdbmv[i] ?? null,
    kind: kind[i] ?? null,
    takenAtMs: takenAtMs[i] ?? 0,
  }));
  return { ...packReadings(rows), count: rows.length };
}

/** The document of a record that was put aside; a sweep's readings were packed then. */
function wholeOf({ document, frequencies, body }: Staged): PlainObject {
  const kept = JSON.parse(document) as PlainObject;
  if (frequencies === null || body === null) return kept;
  const rows = unpackReadings(unpackFrequencies(frequencies), body);
  return {
    ...kept,
    readings: {
      frequencyHz: rows.map(({ frequencyHz }) => frequencyHz),
      meterMdbmv: rows.map(({ meterMdbmv }) => meterMdbmv),
      kind: rows.map(({ kind }) => kind),
      takenAtMs: rows.map(({ takenAtMs }) => takenAtMs),
    },
  };
}

/** Takes records of other laptops in: put aside and looked through first, then kept in one transaction. */
export function createTakeIn(db: Database, chain: Chain, session: Session): TakeIn {
  const places = recordPlaces(db, chain);
  const put = recordPutter(db);
  // A file of SQLite's own that goes when it is closed; what doesn't fit into memory is on the disk.
  const aside = new DatabaseFile('');
  aside.exec(`CREATE TABLE staged (place INTEGER PRIMARY KEY, device TEXT, seq INTEGER, previous TEXT, hash TEXT UNIQUE,
    kind TEXT, id TEXT, document TEXT, attachments TEXT, frequencies BLOB, body BLOB, count INTEGER); BEGIN`);
  const add = aside.prepare('INSERT OR IGNORE INTO staged VALUES (NULL, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)');
  const staged = aside.prepare<[], Staged>('SELECT * FROM staged ORDER BY place');
  const addFile = db.prepare(`INSERT INTO taken_in
    (sha256, file_name, device_id, made_at, taken_at, operator, records, added, conflicts, session)
    VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`);
  const fileOf = db.prepare<[string]>('SELECT 1 FROM taken_in WHERE sha256 = ?');
  const addConflict = db.prepare(`INSERT INTO conflict
    (kind, record_id, device_id, device_seq, previous, hash, document, attachments, taken_in)
    VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`);
  let records = 0;
  let known = 0;

  const keepOne = (row: Staged): 'added' | 'known' | Staged => {
    const document = JSON.parse(row.document) as PlainObject;
    const link: ToldLink = row;
    const here = places.rowOf(row.kind, document);
    if (here !== undefined) return places.saysTheSame(row.kind, here, wholeOf(row)) ? 'known' : row;
    const beside = row.attachments === null ? {} : (JSON.parse(row.attachments) as Record<string, string>);
    const portions = Object.keys(beside).filter((name) => RAW.test(name)).length;
    const device = places.deviceFor(link);
    const at = put({
      kind: row.kind,
      document,
      device,
      packed:
        row.frequencies === null || row.body === null
          ? null
          : { frequencies: row.frequencies, body: row.body, count: row.count ?? 0 },
      raw: Array.from({ length: portions }, (_, i) => bytesOf(beside[`raw-${i}`] ?? '')),
      file: beside.file === undefined ? null : bytesOf(beside.file).toString('utf8'),
    });
    places.link(device, link, row.kind, at);
    return 'added';
  };

  return {
    stage(record, where) {
      records += 1;
      const fits = attachmentsFit(record, where);
      if (!fits.ok) return fits;
      if (places.has(record)) {
        known += 1;
        return done(null);
      }
      const { device, seq, previous, hash, kind, id, document, attachments } = record;
      const packed = kind === 'sweep' ? packedOf(document) : null;
      const { readings: _packed, ...bare } = document;
      const { changes } = add.run(
        device,
        seq,
        previous,
        hash,
        kind,
        id,
        JSON.stringify(packed === null ? document : bare),
        attachments === undefined ? null : JSON.stringify(attachments),
        packed?.frequencies ?? null,
        packed?.body ?? null,
        packed?.count ?? null,
      );
      if (changes === 0) known += 1;
      return done(null);
    },
    keep(from) {
      let added = 0;
      let sweeps = 0;
      const odd: Staged[] = [];
      for (const row of staged.iterate()) {
        const became = keepOne(row);
        if (became === 'known') known += 1;
        else if (became === 'added') {
          added += 1;
          if (row.kind === 'sweep') sweeps += 1;
        } else odd.push(row);
      }
      const conflicts = odd.length;
      const brought = { records, added, known, conflicts, sweeps };
      const { sha256, fileName, device, madeAtMs, takenAtMs, operator } = from;
      // The same file once more changes nothing at all.
      if (added + conflicts === 0 && fileOf.get(sha256) !== undefined) return brought;
      const { lastInsertRowid: file } = addFile.run(
        ...[sha256, fileName, device, madeAtMs, takenAtMs, operator],
        ...[records, added, conflicts, session.number()],
      );
      for (const row of odd) {
        const { kind, id, device: of, seq, previous, hash, attachments } = row;
        addConflict.run(kind, id, of, seq, previous, hash, JSON.stringify(wholeOf(row)), attachments, file);
      }
      return brought;
    },
    close: () => aside.close(),
  };
}
