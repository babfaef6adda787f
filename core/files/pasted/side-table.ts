import type { CsvRow } from '../csv-lines.ts';
import type { Role } from '../header-words.ts';
import { writtenIn } from '../written-number.ts';
import { columnsOf, type Table } from './table.ts';

type Side = Readonly<{ table: Omit<Table, 'titles' | 'separator'>; end: number }>;

/** No table has more lines of different quantities. */
const MOST_QUANTITIES = 60;

const isHead = (cell: string) => /[A-Za-z\u00C0-\u024F]/.test(cell) && writtenIn(cell).kind === 'words';

/**
 * A table that lies on its side: a line for each quantity, its name in the first cell.
 * @param rows    of one separator
 * @param at      where it may begin
 * @param needed  columns without which it is no use
 * @param roleOf  what a heading names; one that remembers is quicker
 * @returns  the table turned upright and the row behind it; null where none begins here. A quantity that is named a
 *           second time, a blank line or another width begins another table.
 * @source   common practice, no published source
 */
export function sideTableAt(
  rows: readonly CsvRow[],
  at: number,
  needed: readonly Role[],
  roleOf: (cell: string) => Role | null,
): Side | null {
  const first = rows[at];
  if (first === undefined || first.cells.length < 2 || !isHead(first.cells[0] ?? '')) return null;
  const width = first.cells.length;
  const named = new Set<string>();
  const roles = new Set<Role>();
  const run: CsvRow[] = [];
  for (let i = at; i < Math.min(rows.length, at + MOST_QUANTITIES); i++) {
    const row = rows[i];
    if (row === undefined) break;
    const before = run.at(-1);
    const name = row.cells[0] ?? '';
    const role = roleOf(name);
    const counts = role === 'frequency' || role === 'level';
    const isNext = before === undefined || row.line === before.line + 1;
    if (!isNext || row.cells.length !== width || !isHead(name)) break;
    if (named.has(name) || (counts && roles.has(role))) break;
    named.add(name);
    if (role !== null) roles.add(role);
    run.push(row);
  }
  if (needed.some((role) => !roles.has(role))) return null;
  const heads = { line: first.line, cells: run.map((row) => row.cells[0] ?? '') };
  const { columns } = columnsOf(heads);
  const placed = Object.fromEntries(
    Object.entries(columns).map(([role, column]) => [
      role,
      { ...column, line: run[column.index]?.line ?? first.line },
    ]),
  );
  const frequencyLine = run[columns.frequency?.index ?? 0]?.line ?? first.line;
  const body = Array.from({ length: width - 1 }, (_, i) => ({
    line: frequencyLine,
    place: i + 2,
    cells: run.map((row) => row.cells[i + 1] ?? ''),
  })).filter((row) => row.cells.some((cell) => cell !== ''));
  // A column whose needed cells are words is a heading row of something else.
  const answers = body.some((row) =>
    needed.some((role) => writtenIn(row.cells[columns[role]?.index ?? -1] ?? '').kind === 'number'),
  );
  return answers
    ? { table: { layout: 'sides', header: heads, columns: placed, body }, end: at + run.length }
    : null;
}
