import type { Database } from 'better-sqlite3';
import type { PlainObject } from '../../../core/records/canonical-text.ts';
import { GENESIS, linkHash } from '../../../core/records/chain.ts';
import { sqliteCodeOf } from './archive-fault.ts';
import { type Chain, type Head, sha256Hex } from './chain.ts';
import { isSimple, type SimpleKind, simpleKinds } from './records.ts';

export type Break = Readonly<{
  device: string;
  seq: number | null;
  kind: string;
  id: string | null;
  what: 'changed' | 'missing' | 'unreadable' | 'out-of-order' | 'unlinked';
  /** In one line. */
  words: string;
}>;
export type Verified = Readonly<{ records: number; sweeps: number; broken: readonly Break[]; head: Head }>;

/** A record that came from another laptop and says otherwise than the one of its name. */
type KeptConflict = Readonly<Record<'device' | 'previous' | 'hash' | 'kind' | 'id' | 'document', string>> &
  Readonly<{ seq: number }>;
const CONFLICTS = `SELECT device_id device, device_seq seq, previous, hash, kind, record_id id, document FROM conflict ORDER BY seq`;

/** More breaks than these say nothing new. */
const MOST_BREAKS = 1000;
const PAGE = 500;

type LinkRow = Readonly<{
  seq: number;
  kind: string;
  row: number;
  place: number;
  previous: string | null;
  hash: string;
}>;

/** What a record calls itself; null where its content is all it has. */
export function recordIdOf(kind: string, document: PlainObject): string | null {
  const key = isSimple(kind) ? simpleKinds[kind].id : `${kind}Id`;
  const id = key === null ? null : document[key];
  return typeof id === 'string' ? id : null;
}

const words: Readonly<Record<Break['what'], string>> = {
  changed: 'is not what was recorded: it was changed, or exchanged with another',
  missing: 'is missing',
  unreadable: "can't be read: its data are damaged",
  'out-of-order': 'does not follow the record before it',
  unlinked: 'was never recorded by the program: it was put in',
};

/**
 * Holds every record against the chains, a portion at a time, so that whoever asks can do other work in between.
 * Tamper-evident, not tamper-proof: who owns the file can make all hashes anew; only a head that is kept elsewhere shows that.
 */
export function* verifyArchive(db: Database, chain: Chain): Generator<number, Verified> {
  const { documents } = chain;
  const broken: Break[] = [];
  let records = 0;
  let sweeps = 0;
  const note = (device: string, seq: number | null, kind: string, what: Break['what'], id: string | null) => {
    if (broken.length >= MOST_BREAKS) return;
    const which = seq === null ? `a ${kind}` : `record ${seq} (${kind})`;
    const line = `${which}${id === null ? '' : ` ${id}`} of laptop ${device.slice(0, 8)} ${words[what]}`;
    broken.push({ device, seq, kind, id, what, words: line });
  };

  const own = chain.head().device;
  const devices = db
    .prepare<[], { seq: number; deviceId: string; mine: 0 | 1 }>(
      `SELECT d.seq, coalesce((SELECT r.device_id FROM device_fork f JOIN device r ON r.seq = f.of_device
           WHERE f.device = d.seq), d.device_id) deviceId,
         d.seq = (SELECT o.device FROM own_device o ORDER BY o.seq DESC LIMIT 1) mine
       FROM device d ORDER BY d.seq`,
    )
    .all();
  const page = db.prepare<[number, number, number], LinkRow>(
    `SELECT device_seq seq, kind, row, place, lower(hex(previous)) previous, lower(hex(hash)) hash
     FROM link WHERE device = ? AND device_seq > ? ORDER BY device_seq LIMIT ?`,
  );
  const documentOf = ({ kind, row, place }: LinkRow): PlainObject | undefined | null => {
    try {
      return documents.of(kind, row, place);
    } catch (fault) {
      if (fault instanceof RangeError || fault instanceof SyntaxError) return null;
      if (/^SQLITE_CORRUPT/.test(sqliteCodeOf(fault) ?? '')) return null;
      throw fault;
    }
  };
  for (const { seq: deviceSeq, deviceId, mine } of devices) {
    let before = { seq: 0, hash: GENESIS };
    for (;;) {
      const links = page.all(deviceSeq, before.seq, PAGE);
      if (links.length === 0) break;
      for (const link of links) {
        records += 1;
        if (link.kind === 'sweep') sweeps += 1;
        const follows = link.seq === before.seq + 1;
        const told = link.previous === null || link.previous === '' ? null : link.previous;
        // Of another laptop only a part of the chain may be here; what was put behind its neighbour had it.
        if (!follows && (mine === 1 || told === null))
          for (let gone = before.seq + 1; gone < link.seq && broken.length < MOST_BREAKS; gone += 1)
            note(deviceId, gone, 'record', 'missing', null);
        const previous = told ?? (follows ? before.hash : null);
        const document = documentOf(link);
        const id = document == null ? null : recordIdOf(link.kind, document);
        if (document === undefined) note(deviceId, link.seq, link.kind, 'missing', null);
        else if (document === null) note(deviceId, link.seq, link.kind, 'unreadable', null);
        else if (told !== null && follows && told !== before.hash)
          note(deviceId, link.seq, link.kind, 'out-of-order', id);
        else if (previous !== null) {
          const place = { device: deviceId, seq: link.seq, previous };
          if (hashOf(place, link.kind, document) !== link.hash)
            note(deviceId, link.seq, link.kind, 'changed', id);
        } else if (mine === 0) note(deviceId, link.seq, link.kind, 'out-of-order', id);
        before = { seq: link.seq, hash: link.hash };
        yield records;
      }
    }
  }

  for (const { kind, sql } of strays()) {
    for (const { row, place } of db.prepare<[], { row: number; place: number }>(sql).iterate()) {
      const document = documentOf({ kind, row, place, seq: 0, previous: null, hash: '' });
      note(own, null, kind, 'unlinked', document == null ? null : recordIdOf(kind, document));
    }
    yield records;
  }
  for (const kept of db.prepare<[], KeptConflict>(CONFLICTS).all()) {
    records += 1;
    const { device, seq, previous, kind, id } = kept;
    const document = JSON.parse(kept.document) as PlainObject;
    if (hashOf({ device, seq, previous }, kind, document) !== kept.hash)
      note(device, seq, kind, 'changed', id);
    yield records;
  }
  // Each link that ever was has a number, so that those which were cut off at the end are missed.
  const [count, numbered] = db
    .prepare<[], [number, number]>(
      "SELECT (SELECT count(*) FROM link), coalesce((SELECT seq FROM sqlite_sequence WHERE name = 'link'), 0)",
    )
    .raw()
    .get() ?? [0, 0];
  const told = broken.filter(({ kind, what }) => kind === 'record' && what === 'missing').length;
  for (let gone = count + told; gone < numbered && broken.length < MOST_BREAKS; gone += 1)
    note(own, null, 'record', 'missing', 'at the end of the chain');
  return { records, sweeps, broken, head: chain.head() };
}

/** Undefined where a record holds what no record can. */
function hashOf(
  place: Parameters<typeof linkHash>[0],
  kind: string,
  document: PlainObject,
): string | undefined {
  try {
    return linkHash(place, kind, document, sha256Hex);
  } catch (fault) {
    if (fault instanceof RangeError) return undefined;
    throw fault;
  }
}

/** For each kind, the rows that are a record and have no link. */
export function strays(): readonly Readonly<{ kind: string; sql: string }>[] {
  const without = (kind: string, row: string, place: string) =>
    `NOT EXISTS (SELECT 1 FROM link l WHERE l.kind = '${kind}' AND l.row = ${row} AND l.place = ${place})`;
  return [
    ...Object.entries(simpleKinds).map(([kind, { table, row, place }]: [string, SimpleKind]) => {
      const at = place === null ? '0' : `t.${place}`;
      return {
        kind,
        sql: `SELECT t.${row} row, ${at} place FROM ${table} t WHERE ${without(kind, `t.${row}`, at)}`,
      };
    }),
    ...(['sweep', 'live', 'watch'] as const).map((kind) => ({
      kind,
      sql: `SELECT t.${kind} row, 0 place FROM ${kind}_end t WHERE ${without(kind, `t.${kind}`, '0')}`,
    })),
  ];
}
