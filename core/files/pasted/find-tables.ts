import type { CsvRow, NotedLine } from '../csv-lines.ts';
import { headerWord, type Role } from '../header-words.ts';
import { bodyOf, isNumberLike, noted, readsLike } from './body-end.ts';
import { saysUnitsOnly } from './footer-units.ts';
import { headedByCells } from './headless.ts';
import { oneUnderOther } from './side-by-side.ts';
import { sideTableAt } from './side-table.ts';
import { holdsLevels } from './stray-levels.ts';
import { type Clash, columnsOf, type Table } from './table.ts';

export type FoundTables = Readonly<{
  tables: readonly Table[];
  /** Lines that belong to none of them and are no title of one. */
  rest: readonly NotedLine[];
  /** The first line among those that holds levels all the same. */
  stray: NotedLine | null;
  /** The first heading in which two columns name the same thing. */
  clash: (Clash & Readonly<{ line: number }>) | null;
}>;

/** Numbers and the like stand below headings, never among them. */
const mayBeHeader = (row: CsvRow) => !row.cells.some(isNumberLike);
const filled = (row: CsvRow) => row.cells.filter((cell) => cell !== '');
const hasNumber = (row: CsvRow) => row.cells.some(isNumberLike);
const unitCell =
  /^[([]?\s*(?:[kmg]?hz|(?:tenths? ?|0\.1 ?)?db(?:[m\u00B5\u03BCu]v|m)?(?: ?\/ ?10)?|dbm ?\/ ?(?:50|75)|[m\u00B5\u03BCu]v|%|-|)\s*[)\]]?$/i;

/** The heading with the units of the line below it, where that line holds nothing but units. */
function withUnitsBelow(header: CsvRow, below: CsvRow | undefined): CsvRow | null {
  if (below === undefined || !below.cells.every((cell) => unitCell.test(cell))) return null;
  if (!below.cells.some((cell) => /hz|db|[m\u00B5\u03BCu]v/i.test(cell))) return null;
  const cells = header.cells.map((cell, i) => `${cell} ${below.cells[i] ?? ''}`.trim());
  return { ...header, cells };
}

type Begun = Readonly<{ header: CsvRow; bodyFrom: number }>;

function headerAt(rows: readonly CsvRow[], at: number, needed: readonly Role[]) {
  const row = rows[at];
  if (row === undefined || !mayBeHeader(row)) return null;
  const { columns, clash } = columnsOf(row);
  if (needed.some((role) => columns[role] === undefined)) return null;
  const below = withUnitsBelow(row, rows[at + 1]);
  // Units that take a heading its meaning are none of it.
  const told = below === null ? null : columnsOf(below).columns;
  const united = told === null || needed.some((role) => told[role] === undefined) ? null : below;
  const begun: Begun = { header: united ?? row, bodyFrom: at + (united === null ? 1 : 2) };
  return { ...begun, columns: united === null || told === null ? columns : told, clash };
}

/** Where every row has one cell more than the heading, its empty first cell was lost, if the cells themselves say so. */
function withLostFirst(header: CsvRow, body: readonly CsvRow[]): CsvRow {
  const width = header.cells.length;
  const [first] = body;
  if (first === undefined || !body.every((row) => row.cells.length === width + 1)) return header;
  const moved = { ...header, cells: ['', ...header.cells] };
  const { columns } = columnsOf(moved);
  const says = (role: 'frequency' | 'level', unit: RegExp) =>
    body.every((row) => unit.test(row.cells[columns[role]?.index ?? -1] ?? ''));
  return says('frequency', /^[\d.,]+ ?[kmg]?hz$/i) &&
    says('level', /(?:db(?:[m\u00B5\u03BCu]v|m)|\d ?[m\u00B5\u03BCu]v)$/i)
    ? moved
    : header;
}

/**
 * Finds the tables that name the needed columns, wherever they stand: below titles, one after another, lying on their
 * side, or without a heading where every cell carries its unit.
 * @param given      rows of one separator
 * @param separator  that parted them
 * @param needed     columns without which a table is no use
 * @returns  the tables in their order, each with the titles before it, and the lines that belong to none
 * @source   contract, section 1; what ends a table is common practice, no published source
 */
export function findTables(
  given: readonly CsvRow[],
  separator: string,
  needed: readonly Role[],
): FoundTables {
  const rows = oneUnderOther(given);
  const tables: Table[] = [];
  const rest: NotedLine[] = [];
  let titles: NotedLine[] = [];
  let stray: NotedLine | null = null;
  let clash: FoundTables['clash'] = null;
  let at = 0;
  const known = new Map<string, Role | null>();
  const roleOf = (cell: string): Role | null => {
    const seen = known.get(cell);
    if (seen !== undefined) return seen;
    const { role } = headerWord(cell);
    known.set(cell, role);
    return role;
  };
  const push = (table: Omit<Table, 'titles' | 'separator'>) => {
    tables.push({ ...table, separator, titles });
    titles = [];
  };
  while (at < rows.length) {
    const row = rows[at];
    if (row === undefined) break;
    const header = headerAt(rows, at, needed);
    // Prose about levels may name them twice; what heads nothing clashes with nothing.
    const heads = header !== null && rows[header.bodyFrom]?.cells.some(isNumberLike) === true;
    if (heads && header.clash !== null) clash ??= { ...header.clash, line: row.line };
    if (header !== null && header.clash === null) {
      const { body, sections, end } = bodyOf(
        rows,
        header.bodyFrom,
        header.header,
        header.columns,
        (place) => headerAt(rows, place, needed) !== null,
      );
      // Prose that names both quantities, straight above the true heading, heads nothing.
      if (body.length === 0 && end === header.bodyFrom && headerAt(rows, end, needed) !== null) {
        titles.push(noted(row));
        at = end;
        continue;
      }
      const moved = withLostFirst(header.header, body);
      const columns = moved === header.header ? header.columns : columnsOf(moved).columns;
      push({ layout: 'rows', header: moved, columns, body });
      for (const section of sections) rest.push(section);
      at = end;
      continue;
    }
    const side = separator === ',' && needed.length < 2 ? null : sideTableAt(rows, at, needed, roleOf);
    if (side !== null) {
      push(side.table);
      for (const words of side.said) rest.push(noted(words));
      at = side.end;
      continue;
    }
    const words = hasNumber(row) ? [] : filled(row);
    // A line of units is whole, however the separator parts it.
    if (words.length === 1 || saysUnitsOnly(words.join(separator === ' ' ? ' ' : `${separator} `)))
      titles.push(noted(row));
    else {
      for (const title of titles) rest.push(title);
      rest.push(noted(row));
      if (holdsLevels(row)) stray ??= noted(row);
      titles = [];
    }
    at++;
  }
  for (const title of titles) rest.push(title);
  if (tables.length > 0) return { tables, rest, stray, clash };
  const headless = needed.includes('level') ? headedByCells(rows.filter(hasNumber), separator) : null;
  if (headless === null) return { tables, rest, stray, clash };
  return {
    tables: [{ ...headless, titles: rows.filter((row) => !hasNumber(row)).map(noted) }],
    rest: [],
    stray: null,
    clash,
  };
}

/**
 * Whether a table has at least one reading, so that its heading is no prose.
 * @returns  true where a row answers frequency and level with numbers
 * @source   common practice, no published source
 */
export const hasReading = ({ body, columns }: Table): boolean => {
  const { frequency, level = frequency } = columns;
  if (frequency === undefined || level === undefined) return false;
  return body.some((row) => readsLike(row, null, { frequency, level }));
};
