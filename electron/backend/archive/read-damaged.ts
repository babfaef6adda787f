import type { Database, Statement } from 'better-sqlite3';

type Cell = string | number | bigint | Buffer | null;
export type FoundRow = readonly Cell[];
export type TableShape = Readonly<{
  name: string;
  columns: readonly string[];
  key: readonly string[];
  hasRowid: boolean;
}>;

/** Gaps up to this many numbers are looked into one by one. */
const WIDEST_GAP = 5_000_000;
/** How far is looked where nothing tells how far the numbers went. */
const UNTOLD_NUMBERS = 10_000;

const quoted = (name: string): string => `"${name.replaceAll('"', '""')}"`;

/** The tables of a whole archive of the same version: their columns, and what finds a row. */
export function shapesOf(db: Database): readonly TableShape[] {
  const tables = db
    .prepare<[], { name: string; wr: 0 | 1 }>(
      `SELECT name, wr FROM pragma_table_list
       WHERE schema = 'main' AND type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name`,
    )
    .all();
  return tables.map(({ name, wr }) => {
    const columns = db.pragma(`table_info(${quoted(name)})`) as readonly { name: string; pk: number }[];
    return {
      name,
      columns: columns.map((column) => column.name),
      key: columns
        .filter(({ pk }) => pk > 0)
        .toSorted((a, b) => a.pk - b.pk)
        .map((column) => column.name),
      hasRowid: wr === 0,
    };
  });
}

/** The rows that a query gives before SQLite finds the damage; true when it came to the end. */
function* untilDamage(
  prepared: () => Statement<Cell[], FoundRow>,
  bound: readonly Cell[] = [],
): Generator<FoundRow, boolean> {
  try {
    yield* prepared().iterate(...bound);
    return true;
  } catch {
    // Whatever SQLite says of a damaged file, the rows until there are read.
    return false;
  }
}

/** Made once; asked for anew where it can't be had. */
function once<T>(make: () => T): () => T {
  let made: T | undefined;
  return () => {
    made ??= make();
    return made;
  };
}

/**
 * Every row of a table that can be read: from the first until the damage, from the last back to it, and what lies between
 * by its number, one by one. A row may come twice.
 * @param db  a damaged archive
 */
export function* readableRows(
  db: Database,
  { name, columns, key, hasRowid }: TableShape,
): Generator<FoundRow> {
  const first = hasRowid ? 'rowid' : quoted(key[0] ?? '');
  const order = hasRowid ? ['rowid'] : key.map(quoted);
  // The number that finds a row comes first, and is not one of its columns.
  const select = `SELECT ${first}, ${columns.map(quoted).join(', ')} FROM ${quoted(name)}`;
  const query = (sql: string) => () => db.prepare<Cell[], FoundRow>(`${select} ${sql}`).raw();

  let low = 0;
  const upward = untilDamage(query(`ORDER BY ${order.join(', ')}`));
  for (;;) {
    const step = upward.next();
    if (step.done === true) {
      if (step.value) return;
      break;
    }
    low = Number(step.value[0]);
    yield step.value.slice(1);
  }
  let high: number | null = null;
  for (const row of untilDamage(query(`ORDER BY ${order.map((column) => `${column} DESC`).join(', ')}`))) {
    high = Number(row[0]);
    yield row.slice(1);
  }
  const last = high ?? Math.max(lastNumberOf(db, name), low + UNTOLD_NUMBERS);
  if (last - low > WIDEST_GAP) return;
  const one = once(query(`WHERE ${first} = ?`));
  for (let number = low; number <= last; number += 1)
    for (const row of untilDamage(one, [number])) yield row.slice(1);
}

/** How far a table's numbers went, as SQLite keeps it apart; 0 where that can't be read either. */
export function lastNumberOf(db: Database, table: string): number {
  const [row] = untilDamage(
    () => db.prepare<Cell[], FoundRow>('SELECT seq FROM sqlite_sequence WHERE name = ?').raw(),
    [table],
  );
  return Number(row?.[0] ?? 0);
}
