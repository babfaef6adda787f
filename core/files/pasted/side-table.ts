import type { CsvRow } from '../csv-lines.ts';
import type { Role } from '../header-words.ts';
import { writtenIn } from '../written-number.ts';
import { columnsOf, type Table } from './table.ts';

/** `said` are lines of words inside of a heading. */
type Side = Readonly<{ table: Omit<Table, 'titles' | 'separator'>; end: number; said: readonly CsvRow[] }>;

/** No table has more lines of different quantities. */
const MOST_QUANTITIES = 60;

const isHead = (cell: string) => /[A-Za-z\u00C0-\u024F]/.test(cell) && writtenIn(cell).kind === 'words';

/** A heading that explains itself in a sentence has no more lines and no more words before the sentence. */
const MOST_LINES = 4;
const MOST_WORDS = 4;
const LONG_HEADING = 40;

type RoleOf = (cell: string) => Role | null;

/** What a heading says before the sentence that explains it; itself where it is short. */
function nameOf(cell: string, roleOf: RoleOf): string {
  if (cell.length <= LONG_HEADING) return cell;
  const words = cell.split(' ').slice(0, MOST_WORDS);
  while (words.length > 0 && roleOf(words.join(' ')) === null) words.pop();
  return words.length > 0 ? words.join(' ') : cell;
}

type Quantity = Readonly<{ row: CsvRow; end: number; said: readonly CsvRow[] }>;

/** The line of one quantity; also where its heading stands alone and a sentence about it goes before the cells. */
function quantityAt(rows: readonly CsvRow[], at: number, width: number, roleOf: RoleOf): Quantity | null {
  const row = rows[at];
  if (row === undefined) return null;
  const [heading = ''] = row.cells;
  const whole = (cells: CsvRow) => ({ ...cells, cells: [nameOf(heading, roleOf), ...cells.cells.slice(1)] });
  if (row.cells.length === width) return { row: whole(row), end: at + 1, said: [] };
  if (row.cells.length !== 1 || roleOf(heading) === null) return null;
  for (let i = at + 1; i < Math.min(rows.length, at + MOST_LINES); i++) {
    const next = rows[i];
    const [first = ''] = next?.cells ?? [];
    if (next === undefined || next.line !== row.line + i - at || (first !== '' && !isHead(first)))
      return null;
    if (next.cells.length === width && roleOf(first) === null)
      return { row: whole(next), end: i + 1, said: rows.slice(at + 1, first === '' ? i : i + 1) };
    if (next.cells.length !== 1) return null;
  }
  return null;
}

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
  roleOf: RoleOf,
): Side | null {
  const first = rows[at];
  if (first === undefined || first.cells.length < 2 || !isHead(first.cells[0] ?? '')) return null;
  const width = first.cells.length;
  const named = new Set<string>();
  const roles = new Set<Role>();
  const run: CsvRow[] = [];
  const said: CsvRow[] = [];
  let end = at;
  while (run.length < MOST_QUANTITIES) {
    const quantity = quantityAt(rows, end, width, roleOf);
    if (quantity === null) break;
    const { row } = quantity;
    const name = row.cells[0] ?? '';
    const role = roleOf(name);
    const counts = role === 'frequency' || role === 'level';
    const before = rows[end - 1];
    const isNext = run.length === 0 || rows[end]?.line === (before?.line ?? 0) + 1;
    if (!isNext || !isHead(name)) break;
    if (named.has(name) || (counts && roles.has(role))) break;
    named.add(name);
    if (role !== null) roles.add(role);
    run.push(row);
    said.push(...quantity.said.map((one) => ({ ...one, cells: one.cells.slice(0, 1) })));
    end = quantity.end;
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
  return answers ? { table: { layout: 'sides', header: heads, columns: placed, body }, end, said } : null;
}
