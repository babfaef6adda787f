import type { Database } from 'better-sqlite3';
import { type FoundRow, readableRows, shapesOf, type TableShape } from './read-damaged.ts';
import { type Relinked, relink } from './salvage-chain.ts';

/** Worked out anew, or taken with the chain. */
const LEFT_OUT = new Set([
  'station_face',
  'judged_basis',
  'judged_sweep',
  'link',
  'device',
  'own_device',
  'chain_pending',
]);

/** A table's rows into the one that is made; a row that is there already, or that the table doesn't take, is left out. */
function takeRows(to: Database, { name, columns }: TableShape, rows: Iterable<FoundRow>): void {
  const list = columns.map((column) => `"${column}"`).join(', ');
  const add = to.prepare(
    `INSERT OR IGNORE INTO "${name}" (${list}) VALUES (${columns.map(() => '?').join(', ')})`,
  );
  for (const row of rows) {
    try {
      add.run(...row);
    } catch {
      // A damaged row: text for a number, or bytes that are no row of this table.
    }
  }
}

/** Without triggers, because rows come in the order of their tables; the same ones are put back afterwards. */
function withoutTriggers<T>(db: Database, work: () => T): T {
  const triggers = db
    .prepare<[], { name: string; sql: string }>("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'")
    .all();
  for (const { name } of triggers) db.exec(`DROP TRIGGER "${name}"`);
  const answer = work();
  for (const { sql } of triggers) db.exec(sql);
  return answer;
}

/** A table without row numbers: by each of its parents. */
function removeOrphansOf(db: Database, table: string): void {
  const parts = db.pragma(`foreign_key_list("${table}")`) as readonly Readonly<
    { id: number } & Record<'table' | 'from' | 'to', string>
  >[];
  for (const id of new Set(parts.map((part) => part.id))) {
    const key = parts.filter((part) => part.id === id);
    const same = key.map(({ from, to }) => `p."${to}" = "${table}"."${from}"`).join(' AND ');
    const given = key.map(({ from }) => `"${from}" IS NOT NULL`).join(' AND ');
    db.exec(
      `DELETE FROM "${table}" WHERE ${given} AND NOT EXISTS (SELECT 1 FROM "${key[0]?.table}" p WHERE ${same})`,
    );
  }
}

/** Rows whose parent is lost, and theirs. */
function removeOrphans(db: Database): void {
  for (;;) {
    const stray = db.pragma('foreign_key_check') as readonly { table: string; rowid: number | null }[];
    if (stray.length === 0) return;
    for (const { table, rowid } of stray)
      if (rowid !== null) db.prepare(`DELETE FROM "${table}" WHERE rowid = ?`).run(rowid);
    for (const table of new Set(stray.filter(({ rowid }) => rowid === null).map((row) => row.table)))
      removeOrphansOf(db, table);
  }
}

/**
 * Every row that can be read, into a new archive of the same version, and the chain over them.
 * @param to       as it is made, without a record
 * @param sources  the first one that has a row says it
 */
export function takeReadable(to: Database, sources: readonly Database[]): Relinked {
  to.pragma('foreign_keys = OFF');
  const shapes = shapesOf(to);
  return withoutTriggers(to, () =>
    to.transaction(() => {
      for (const shape of shapes)
        if (!LEFT_OUT.has(shape.name))
          for (const source of sources) takeRows(to, shape, readableRows(source, shape));
      // A sweep that ended after the backup was made has a journal there and its packed levels here.
      to.exec('DELETE FROM reading WHERE sweep IN (SELECT sweep FROM sweep_levels)');
      return relink(to, sources, shapes, () => removeOrphans(to));
    })(),
  );
}
