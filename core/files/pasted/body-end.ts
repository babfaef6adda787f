import type { CsvRow, NotedLine } from '../csv-lines.ts';
import { saysNotLocked } from '../lock-words.ts';
import { isModulation } from '../signal-kind.ts';
import { writtenIn } from '../written-number.ts';
import type { Columns } from './table.ts';

const beginsWithNumber = /^[+-]?[\d.,]*\d/;
const filled = (row: CsvRow) => row.cells.filter((cell) => cell !== '');
const isWords = (cell: string) => /[A-Za-z\u00C0-\u024F]{2}/.test(cell) && writtenIn(cell).kind === 'words';

/**
 * Whether a cell begins as a number does.
 * @returns  true also for a number with its unit
 * @source   common practice, no published source
 */
export function isNumberLike(cell: string): boolean {
  const first = cell.charCodeAt(0);
  return (first >= 48 && first <= 57) || (first < 48 && beginsWithNumber.test(cell));
}

/**
 * A row as a line to be told of.
 * @returns  its line and its cells, at most 200 characters
 * @source   contract, section 1: what is left out is said
 */
export const noted = (row: CsvRow): NotedLine => ({
  line: row.line,
  text: filled(row).join(' ').slice(0, 200),
});

/** Words alone on their line, in its first cell, where a row has several: a title, a section or a foot. */
const isTitle = (row: CsvRow, width: number): boolean => {
  const [first = ''] = row.cells;
  return width > 1 && filled(row).length === 1 && isWords(first) && !beginsWithNumber.test(first);
};

/** "3.1 Downstream channels": a number that begins a title, straight above a line of headings. */
const isNumberedTitle = (row: CsvRow, width: number, next: CsvRow | undefined): boolean => {
  const [first = ''] = row.cells;
  // Most rows have a second cell; they are looked at no further.
  return (
    width > 1 &&
    (row.cells[1] ?? '') === '' &&
    filled(row).length === 1 &&
    /^\d+(?:\.\d+)? [A-Za-z\u00C0-\u024F]{3,}( [A-Za-z\u00C0-\u024F]+)+\W*$/.test(first) &&
    next !== undefined &&
    filled(next).length > 1 &&
    next.cells.every((cell) => cell === '' || (!isNumberLike(cell) && writtenIn(cell).kind === 'words'))
  );
};

/** How many rows there were, as a database prints it below them. */
const isCount = (row: CsvRow, width: number): boolean =>
  width > 1 &&
  filled(row).length === 1 &&
  /^\(?\d+ (?:rows?|records?|lines?|results?|entries|channels?|readings?)\b[^\d]*$/i.test(row.cells[0] ?? '');

/**
 * Whether a row answers a table's frequency and level in the form of the row before it: numbers, with units or bare.
 * @returns  true for the next reading of the same table
 * @source   common practice, no published source
 */
export const readsLike = (row: CsvRow | undefined, before: CsvRow | null, columns: Columns): boolean =>
  (before === null || row?.cells.length === before.cells.length) &&
  (['frequency', 'level'] as const).every((role) => {
    const at = columns[role]?.index ?? -1;
    const one = writtenIn(row?.cells[at] ?? '');
    const other = before === null ? one : writtenIn(before.cells[at] ?? '');
    return one.kind === 'number' && (other.kind !== 'number' || (one.unit === '') === (other.unit === ''));
  });

/** Headings of something else behind a blank line, with no reading straight below them. */
function isOtherHeader(row: CsvRow, before: CsvRow, next: CsvRow | undefined, columns: Columns): boolean {
  if (row.line <= before.line + 1) return false;
  const cells = filled(row);
  const isHeading = (cell: string) =>
    !beginsWithNumber.test(cell) &&
    writtenIn(cell).kind === 'words' &&
    !saysNotLocked(cell) &&
    !isModulation(cell);
  return cells.length > 1 && cells.every(isHeading) && !readsLike(next, before, columns);
}

/** A change of direction in the middle of a table is not for us to pass over. */
const turns = /\b(down|up)stream\b|\breturn\b/i;

export type Body = Readonly<{ body: readonly CsvRow[]; sections: readonly NotedLine[]; end: number }>;

/**
 * The rows below a heading.
 * @param rows      of one separator
 * @param from      the first row below the heading
 * @param heading   the heading itself
 * @param columns   what it names
 * @param isHeader  whether another heading of levels stands at a place
 * @returns  the rows, the lines of words between them, and where the table ends: at another heading, at a title of
 *           one, or behind the last row. A row that is neither is a row, so that nothing is dropped without a word.
 * @source   common practice, no published source
 */
export function bodyOf(
  rows: readonly CsvRow[],
  from: number,
  heading: CsvRow,
  columns: Columns,
  isHeader: (at: number) => boolean,
): Body {
  const width = heading.cells.length;
  const body: CsvRow[] = [];
  const sections: NotedLine[] = [];
  let before = heading;
  let at = from;
  for (; at < rows.length; at++) {
    const row = rows[at];
    if (row !== undefined && isCount(row, width)) {
      sections.push(noted(row));
      continue;
    }
    if (row !== undefined && isNumberedTitle(row, width, rows[at + 1])) break;
    // Where a number stands, there is no heading, no title and no other table.
    if (row?.cells.some(isNumberLike)) {
      body.push(row);
      before = row;
      continue;
    }
    if (row === undefined || isHeader(at) || isOtherHeader(row, before, rows[at + 1], columns)) break;
    if (isTitle(row, width)) {
      let next = at + 1;
      while (next < rows.length && isTitle(rows[next] ?? heading, width)) next++;
      const follower = rows[next];
      const goesOn =
        follower !== undefined && !isHeader(next) && readsLike(follower, body.at(-1) ?? null, columns);
      if (!goesOn) break;
      if (row.cells.length === 1 && !turns.test(row.cells[0] ?? '')) {
        sections.push(noted(row));
        continue;
      }
    }
    body.push(row);
    before = row;
  }
  return { body, sections, end: at };
}
