import type { Database } from 'better-sqlite3';
import { createChain } from './chain.ts';
import { simpleKinds } from './records.ts';

/** An end in its table, or null where every row is a whole record at once. */
const whole = [
  ['sweep', 'sweep_end'],
  ['live', 'live_end'],
  ['watch', 'watch_end'],
] as const;

/** Sessions and designs first, because the others name them. */
const RANK = ['session', 'design', 'settings', 'visit', 'sweep', 'live', 'set-up', 'watch'];
const rankOf = (kind: string): number => {
  const rank = RANK.indexOf(kind);
  return rank === -1 ? RANK.length : rank;
};

/**
 * Links everything that an archive of before the chain holds, once, and all of it or nothing. Not a migration's step:
 * a record's document is what this program makes of the newest tables.
 */
export function linkPending(db: Database): void {
  if (db.prepare('SELECT 1 FROM chain_pending').get() === undefined) return;
  const rows = [
    ...Object.entries(simpleKinds).map(([kind, { table, row, place }]) => ({
      kind,
      sql: `SELECT ${row} row, ${place ?? 0} place, ${kind === 'session' ? 'seq' : 'session'} session FROM ${table} ORDER BY 1, 2`,
    })),
    ...whole.map(([kind, ends]) => ({
      kind,
      sql: `SELECT e.${kind} row, 0 place, t.session FROM ${ends} e JOIN ${kind} t ON t.seq = e.${kind} ORDER BY 1`,
    })),
  ].flatMap(({ kind, sql }) =>
    db
      .prepare<[], Readonly<{ row: number; place: number; session: number }>>(sql)
      .all()
      .map((found) => ({ ...found, kind })),
  );
  rows.sort((a, b) => a.session - b.session || rankOf(a.kind) - rankOf(b.kind));
  const chain = createChain(db);
  db.transaction(() => {
    for (const { kind, row, place } of rows) chain.link(kind, row, place);
    db.exec('DELETE FROM chain_pending');
  }).immediate();
}
