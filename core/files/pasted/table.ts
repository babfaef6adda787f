import type { CsvRow, NotedLine } from '../csv-lines.ts';
import { type HeaderWord, headerWord, type Role } from '../header-words.ts';
import { isVoltage } from '../level-unit.ts';

/** `line` of its heading where a table lies on its side. */
export type Column = Readonly<{ index: number; header: string; word: HeaderWord; line?: number }>;
export type Columns = Readonly<Partial<Record<Role | 'twin', Column>>>;

/** A table whose separator and columns are certain; its cells are still text. */
export type Table = Readonly<{
  separator: string;
  /** `rows`: a row each reading; `sides`: a row each quantity, so that its cells were turned. */
  layout: 'rows' | 'sides';
  header: CsvRow;
  columns: Columns;
  body: readonly CsvRow[];
  /** Lines of words straight before it, in their order. */
  titles: readonly NotedLine[];
}>;

/**
 * Where a cell of a table stands, for a refusal.
 * @returns  file, line and column; the column by its heading, or by its number where the table lies on its side
 * @source   contract, section 1
 */
export function placeOf(table: Table, row: CsvRow, role: Role, fileName: string): string {
  const column = table.columns[role];
  return table.layout === 'sides' && row.place !== undefined
    ? `${fileName}, line ${column?.line ?? row.line}, column ${row.place}`
    : `${fileName}, line ${column?.line ?? row.line}, column "${column?.header ?? role}"`;
}

/** A second column of levels in another unit; whether it says the same is seen in its rows. */
const isTwin = ({ word: earlier }: Column, { role, levelUnit }: HeaderWord): boolean =>
  role === 'level' && earlier.levelUnit !== null && levelUnit !== null && levelUnit !== earlier.levelUnit;

const sentLevel = /\b(?:tx|transmit(?:ted)?|sent)\b/i;
const receivedLevel = /\b(?:rx|receive[d]?)\b/i;
/** A level that is sent, where another heading of the same table is the level that is received. */
const isSentBeside = (text: string, header: CsvRow): boolean =>
  sentLevel.test(text) &&
  header.cells.some((other) => receivedLevel.test(other) && headerWord(other).role === 'level');

/** Two headings that both name one of the columns that count. */
export type Clash = Readonly<{ role: Role; one: string; other: string }>;

/**
 * Which heading names which column: the first of each role.
 * @param header  headings in any order
 * @returns  the columns; one by its unit alone where no words name it and no other has that unit; `twin` where levels
 *           stand in two units; and where two name a frequency or two a level, which are not for us to choose from
 * @source   contract, section 1
 */
export function columnsOf(header: CsvRow): Readonly<{ columns: Columns; clash: Clash | null }> {
  const columns: Partial<Record<Role | 'twin', Column>> = {};
  let clash: Clash | null = null;
  const unnamed: Column[] = [];
  for (const [index, text] of header.cells.entries()) {
    if (text === '') continue;
    const word = headerWord(text);
    if (word.role === 'level' && isSentBeside(text, header)) continue;
    if (word.role === null && word.byUnit !== null) unnamed.push({ index, header: text, word });
    if (word.role === null) continue;
    const earlier = columns[word.role];
    if (earlier === undefined) columns[word.role] = { index, header: text, word };
    else if (isTwin(earlier, word) && columns.twin === undefined) {
      // A voltage has fewer digits of a small level than its decibels have.
      const isFiner = isVoltage(earlier.word.levelUnit) && !isVoltage(word.levelUnit);
      columns.twin = isFiner ? earlier : { index, header: text, word };
      if (isFiner) columns.level = { index, header: text, word };
    } else if (word.role === 'frequency' || word.role === 'level')
      clash ??= { role: word.role, one: earlier.header, other: text };
  }
  // A heading in words that nobody foresaw, "RSL (dBmV)", is known by its unit where it is the only one of it.
  for (const role of ['frequency', 'level'] as const) {
    const [only, second] = unnamed.filter(({ word }) => word.byUnit === role);
    if (columns[role] === undefined && only !== undefined && second === undefined) columns[role] = only;
  }
  return { columns, clash };
}
