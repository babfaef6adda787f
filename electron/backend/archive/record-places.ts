import type { Database } from 'better-sqlite3';
import { canonicalText, type PlainObject } from '../../../core/records/canonical-text.ts';
import type { Chain } from './chain.ts';
import { isSimple, type SimpleKind, simpleKinds } from './records.ts';

/** A record's link, as a file tells it. */
export type ToldLink = Readonly<{ device: string; seq: number; previous: string; hash: string }>;

export type RecordPlaces = Readonly<{
  /** Whether this very link is here, or kept as a conflict. */
  has(link: ToldLink): boolean;
  /** The row of a record of that name, whatever it says; undefined without one. */
  rowOf(kind: string, document: PlainObject): Readonly<{ row: number; place: number }> | undefined;
  /** Whether the record there says just this. */
  saysTheSame(kind: string, at: Readonly<{ row: number; place: number }>, document: PlainObject): boolean;
  /** The device row under which a link is put: one of that id where nothing speaks against it, else a new one. */
  deviceFor(link: ToldLink): number;
  /** Puts a link there. */
  link(device: number, link: ToldLink, kind: string, at: Readonly<{ row: number; place: number }>): void;
}>;

type Neighbour = Readonly<{ hash: string; previous: string | null }>;

/** Where records of other laptops are or go, in the tables and in the chains. */
export function recordPlaces(db: Database, chain: Pick<Chain, 'device' | 'documents'>): RecordPlaces {
  const rows = db
    .prepare<[string, string], number>(
      `SELECT d.seq FROM device d WHERE d.device_id = ? UNION ALL
     SELECT f.device FROM device_fork f JOIN device d ON d.seq = f.of_device WHERE d.device_id = ? ORDER BY 1`,
    )
    .pluck();
  const at = db.prepare<[number, number], Neighbour>(
    'SELECT lower(hex(hash)) hash, lower(hex(previous)) previous FROM link WHERE device = ? AND device_seq = ?',
  );
  const conflictOf = db.prepare<[string]>('SELECT 1 FROM conflict WHERE hash = ?');
  const addDevice = db.prepare('INSERT INTO device (device_id) VALUES (?)');
  const addFork = db.prepare('INSERT INTO device_fork (device, of_device) VALUES (?, ?)');
  const add = db.prepare(
    'INSERT INTO link (device, device_seq, kind, row, place, previous, hash) VALUES (?, ?, ?, ?, ?, ?, ?)',
  );
  const byName = new Map<string, ReturnType<typeof prepare>>();
  const prepare = (sql: string) => db.prepare<unknown[], { row: number; place: number }>(sql);
  const find = (kind: string): ReturnType<typeof prepare> => {
    const known = byName.get(kind);
    if (known !== undefined) return known;
    const made = prepare(sqlOf(kind));
    byName.set(kind, made);
    return made;
  };
  // Asked for every record of a file; only this object adds to it.
  const devices = new Map<string, number[]>();
  const devicesOf = (device: string): number[] => {
    const known = devices.get(device);
    if (known !== undefined) return known;
    const found = rows.all(device, device);
    devices.set(device, found);
    return found;
  };
  const saysTheSame: RecordPlaces['saysTheSame'] = (kind, { row, place }, document) => {
    const here = chain.documents.of(kind, row, place);
    return here !== undefined && canonicalText(here) === canonicalText(document);
  };

  return {
    has: ({ device, seq, hash }) =>
      devicesOf(device).some((row) => at.get(row, seq)?.hash === hash) || conflictOf.get(hash) !== undefined,
    rowOf(kind, document) {
      const keys = keysOf(kind).map((key) => document[key]);
      if (named(kind)) return find(kind).get(...keys);
      // A name that is a digest of the content: only the same content has it.
      return find(kind)
        .all(...keys)
        .find((found) => saysTheSame(kind, found, document));
    },
    saysTheSame,
    deviceFor({ device, seq, previous, hash }) {
      const fits = (row: number): boolean => {
        // The own chain is written by this laptop alone.
        if (row === chain.device() || at.get(row, seq) !== undefined) return false;
        const before = at.get(row, seq - 1);
        const after = at.get(row, seq + 1);
        return (
          (before === undefined || before.hash === previous) &&
          (after === undefined || after.previous === null || after.previous === '' || after.previous === hash)
        );
      };
      const candidates = devicesOf(device);
      const found =
        candidates.find((row) => fits(row) && at.get(row, seq - 1) !== undefined) ?? candidates.find(fits);
      if (found !== undefined) return found;
      const [of] = candidates;
      if (of === undefined) {
        const made = Number(addDevice.run(device).lastInsertRowid);
        candidates.push(made);
        return made;
      }
      const fork = Number(addDevice.run(crypto.randomUUID()).lastInsertRowid);
      addFork.run(fork, of);
      candidates.push(fork);
      return fork;
    },
    link(device, { seq, previous, hash }, kind, { row, place }) {
      const follows = at.get(device, seq - 1)?.hash === previous;
      const told = follows ? null : Buffer.from(previous, 'hex');
      add.run(device, seq, kind, row, place, told, Buffer.from(hash, 'hex'));
    },
  };
}

/** The keys of a document that find its row. */
function keysOf(kind: string): readonly string[] {
  if (kind === 'set-up-event') return ['setUp', 'place'];
  if (!isSimple(kind)) return [`${kind}Id`];
  const { id } = simpleKinds[kind];
  return id === null ? ['orderMs', 'session'] : [id];
}

const named = (kind: string): boolean =>
  !isSimple(kind) || simpleKinds[kind].id !== null || kind === 'set-up-event';

function sqlOf(kind: string): string {
  if (!isSimple(kind)) return `SELECT seq row, 0 place FROM ${kind} WHERE ${kind}_id = ?`;
  const shape: SimpleKind = simpleKinds[kind];
  if (kind === 'set-up-event')
    return `SELECT set_up row, place FROM ${shape.table}
      WHERE set_up = (SELECT s.seq FROM set_up s WHERE s.set_up_id = ?) AND place = ?`;
  if (shape.id === null)
    return `SELECT seq row, 0 place FROM ${shape.table}
      WHERE order_ms = ? AND session = (SELECT x.seq FROM session x WHERE x.session_id = ?)`;
  const field = shape.fields.find(({ key }) => key === shape.id);
  if (field === undefined) throw new Error(`${kind} has no id`);
  const value = field.as === 'plain' ? '?' : `(SELECT r.seq FROM ${field.as} r WHERE r.${field.as}_id = ?)`;
  return `SELECT ${shape.row} row, 0 place FROM ${shape.table} WHERE ${field.column} = ${value}`;
}
