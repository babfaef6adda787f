import type { Database } from 'better-sqlite3';
import { packReadings } from '../../../../core/records/pack-readings.ts';

import { faces, guards, indexes, order } from './006-records-guards.ts';
import { chainTables, orderColumns, ordered, sweepTables } from './006-records-tables.ts';

type Row = Readonly<{ seq: number; session: number; atMs: number }>;

/** What was recorded before there was an order: by session, then as each table's own order and the clock have it. */
function putInOrder(db: Database): void {
  const rows = [['sweep', 'started_at'] as const, ...ordered].flatMap(([table, at], rank) => {
    let session = 0;
    let atMs = 0;
    return db
      .prepare<[], Row>(`SELECT seq, session, ${at} atMs FROM ${table} ORDER BY seq`)
      .all()
      .map((row) => {
        // A clock that went back doesn't take a table's records with it.
        atMs = row.session === session ? Math.max(atMs, row.atMs) : row.atMs;
        session = row.session;
        return { table, seq: row.seq, session, atMs, rank };
      });
  });
  rows.sort((a, b) => a.session - b.session || a.atMs - b.atMs || a.rank - b.rank || a.seq - b.seq);
  const put = new Map(
    [...new Set(rows.map(({ table }) => table))].map((table) => [
      table,
      db.prepare(`UPDATE ${table} SET order_ms = ? WHERE seq = ?`),
    ]),
  );
  let last = -1;
  for (const { table, seq, atMs } of rows) {
    last = Math.max(atMs, last + 1);
    put.get(table)?.run(last, seq);
  }
}

/** The readings of every sweep that has ended, packed; one that has not stays a journal. */
function packEnded(db: Database): void {
  const readingsOf = db.prepare<[number], Parameters<typeof packReadings>[0][number]>(
    `SELECT frequency_hz frequencyHz, meter_mdbmv meterMdbmv, kind, taken_at takenAtMs
     FROM reading WHERE sweep = ? ORDER BY place`,
  );
  const addList = db.prepare('INSERT OR IGNORE INTO frequency_list (body) VALUES (?)');
  const add = db.prepare('INSERT INTO sweep_levels SELECT ?, seq, ?, ? FROM frequency_list WHERE body = ?');
  const ended = db.prepare<[], number>('SELECT sweep FROM sweep_end ORDER BY sweep').pluck().all();
  for (const sweep of ended) {
    const readings = readingsOf.all(sweep);
    const { frequencies, body } = packReadings(readings);
    addList.run(frequencies);
    add.run(sweep, readings.length, body, frequencies);
  }
  db.exec('DELETE FROM reading WHERE sweep IN (SELECT sweep FROM sweep_levels)');
}

/** What an archive holds already is put in order and packed; `linkPending` links it, in the same opening. */
export function recordChain(db: Database): void {
  db.exec(chainTables);
  // Without this, renaming a table looks into triggers that name the one which is just being made anew.
  db.pragma('legacy_alter_table = ON');
  db.exec(sweepTables);
  db.pragma('legacy_alter_table = OFF');
  db.exec(orderColumns);
  putInOrder(db);
  db.exec('DROP TRIGGER reading_is_never_deleted');
  packEnded(db);
  db.exec(`${indexes}${guards}\n${order}${faces}`);
}
