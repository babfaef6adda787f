import { done, type Refusal, type Result, refuse } from '../result.ts';
import { type CsvRow, firstRow, type NotedLine, type PlainText, plainText } from './csv-lines.ts';
import type { Role } from './header-words.ts';
import { rowsOfCellLines } from './pasted/cell-lines.ts';
import { findTables, hasReading } from './pasted/find-tables.ts';
import { withoutFooter } from './pasted/footer-units.ts';
import { gridOf, mayPart, type Separator, separatorName, separators } from './pasted/grid.ts';
import { isSummary } from './pasted/summary-row.ts';
import type { Table } from './pasted/table.ts';
import { clashRefusal, type TableRefusal, type Tables } from './pasted/tables.ts';
import { tablesInJson, tablesInLines } from './pasted/unparted.ts';

const example = 'frequency_mhz,level_dbmv';

/** Why a first row is no header, in words that fit what it looks like. */
function notAHeader(header: CsvRow, needed: readonly Role[], fileName: string) {
  const where = `${fileName}, line ${header.line}`;
  if (/^\s*[[{<]/.test(header.cells.join(' ')))
    return refuse('not-understood', where, `this is no table with a header; a sweep begins with ${example}`);
  if (/^[+-]?\d/.test(header.cells.find((cell) => cell !== '') ?? ''))
    return refuse('no-header', where, `the columns have no names; write ${example} as the first line`);
  const found = header.cells.filter((cell) => cell !== '').slice(0, 8);
  const missing = needed.map((role) => `a ${role}`).join(' and ');
  const help = `no columns for ${missing} among "${found.join('", "').slice(0, 120)}"; name them as in ${example}`;
  return refuse('no-header', where, help);
}

/** A table begins within so much of a text, or it is none; the rest is looked at once, with the separator found. */
const HEAD_CHARS = 100_000;
const HEAD_LINES = 200;
function headOf(text: string): string {
  let end = 0;
  for (let line = 0; line < HEAD_LINES && end >= 0 && end < text.length; line++) {
    end = text.indexOf('\n', end);
    if (end >= 0) end++;
  }
  if (end < 0 || text.length <= HEAD_CHARS) return text;
  const later = text.lastIndexOf('\n', HEAD_CHARS) + 1;
  return text.slice(0, Math.max(end, later));
}

/** The separators with which a text holds a table. Blanks and colons part words too: they are tried last. */
function fittingIn(text: string, told: string | null, needed: readonly Role[], fileName: string): string[] {
  const howItFits = (separator: string): 'reading' | 'heading' | null => {
    const grid = gridOf(text, separator, fileName);
    const tables = grid.ok ? findTables(grid.value, separator, needed).tables : [];
    return tables.length === 0 ? null : tables.some(hasReading) ? 'reading' : 'heading';
  };
  if (told !== null) return howItFits(told) === null ? [] : [told];
  const tried = (some: readonly Separator[]) =>
    some
      .filter((one) => needed.length === 1 || mayPart(text, one))
      .map((separator) => ({ separator, how: howItFits(separator) }))
      .filter(({ how }) => how !== null);
  const hard = tried(separators.slice(0, 4));
  // A heading without a reading may be prose with a comma in it; one with readings is none.
  const read = hard.filter(({ how }) => how === 'reading');
  if (read.length > 0) return read.map(({ separator }) => separator);
  const soft = tried(separators.slice(4)).filter(({ how }) => how === 'reading');
  return [...soft.slice(0, 1), ...hard].map(({ separator }) => separator).slice(0, soft.length > 0 ? 1 : 4);
}

/** Why no separator gives a table: told of the one that parts the first row into most cells. */
function whyNone(text: string, told: string | null, needed: readonly Role[], fileName: string) {
  const tried = told === null ? [',', ';', '\t'] : [told];
  const rows = tried.map((separator) => firstRow(text, separator));
  const widest = rows.reduce((best, row) => (row.cells.length > best.cells.length ? row : best));
  return notAHeader(widest, needed, fileName);
}

/** A header that somebody wrote as a comment, straight above the first row. */
function withCommentedHeader(plain: PlainText): PlainText | null {
  const lines = plain.text.split('\n');
  const first = lines.findIndex((line) => line.trim() !== '');
  const above = plain.comments.findLast(({ line }) => line <= first);
  if (above === undefined || above.line < first) return null;
  lines[above.line - 1] = above.text;
  return { ...plain, text: lines.join('\n'), comments: plain.comments.filter((one) => one !== above) };
}

/** Where several tables stand in a text, a comment above one of them, "## Upstream", is its title. */
function withCommentTitles(tables: readonly Table[], comments: readonly NotedLine[]): readonly Table[] {
  if (tables.length < 2 || comments.length === 0) return tables;
  return tables.map((table, i) => {
    const above = tables[i - 1];
    const after = above === undefined ? 0 : (above.body.at(-1) ?? above.header).line;
    const said = comments.filter(({ line, text }) => text !== '' && line > after && line < table.header.line);
    return said.length === 0 ? table : { ...table, titles: [...said, ...table.titles] };
  });
}

type Footed = PlainText & Readonly<{ footers: readonly NotedLine[] }>;
/** A file that ends with its units ends whole. */
function withFooters(plain: PlainText): Footed {
  const { text, footers } = withoutFooter(plain.text);
  return { ...plain, text, footers, unended: plain.unended && footers.length === 0 };
}

function tablesIn(
  plain: Footed,
  needed: readonly Role[],
  fileName: string,
): Result<Tables, TableRefusal> | null {
  const { text, toldSeparator, comments, footers } = plain;
  const head = headOf(text);
  const [only, second] = fittingIn(head, toldSeparator, needed, fileName);
  if (only === undefined) return null;
  // A single column needs no separator, so that every one fits; then the first is as good as any.
  if (second !== undefined && needed.length > 1)
    return refuse(
      'two-separators',
      `${fileName}, line ${firstRow(text, only).line}`,
      `both ${separatorName(only)} and ${separatorName(second)} part this header; use one of them`,
    );
  const grid = gridOf(text, only, fileName);
  if (!grid.ok) return grid;
  const found = findTables(grid.value, only, needed);
  const clash = clashRefusal(found, fileName);
  if (clash !== null) return clash;
  const tables = withCommentTitles(found.tables, comments);
  for (const table of tables) {
    const refusal = rowRefusal(table, needed, plain.unended ? grid.value.at(-1) : undefined, fileName);
    if (refusal !== null) return refusal;
  }
  return done({
    separator: only,
    tables,
    comments,
    footers,
    rest: found.rest,
    stray: found.stray,
  });
}

/** A row that is longer than its heading, or too short for what is needed, was cut or parted wrongly. */
function rowRefusal(
  { header, columns, body, separator, layout }: Table,
  needed: readonly Role[],
  unended: CsvRow | undefined,
  fileName: string,
): Refusal<TableRefusal> | null {
  if (layout === 'sides') return null;
  const width = header.cells.length;
  for (const row of body) {
    // An average below a table has whatever cells it has.
    if (isSummary(row)) continue;
    const where = `${fileName}, line ${row.line}`;
    if (row.cells.length > width && row.cells.slice(width).some((cell) => cell !== ''))
      return refuse(
        'row-length',
        where,
        `${row.cells.length} cells under ${width} headings; ${separator === ' ' ? 'part the columns with tabs, or leave no cell empty' : 'a decimal comma must not also part the cells'}`,
      );
    const short = needed.find((role) => (columns[role]?.index ?? 0) >= row.cells.length);
    const cut = row === unended && row.cells.length < width;
    if (short !== undefined || cut || (separator === ' ' && row.cells.length < width))
      return refuse('row-length', where, `${row.cells.length} of ${width} cells: the row is cut off`);
  }
  return null;
}

/**
 * A text to its tables: separator, layout and columns of each decided, or refused.
 * @param text      as decoded
 * @param fileName  named in every refusal
 * @param needed    the columns without which a table is no use
 * @returns  at least one table, its cells still text; or a refusal with file and line
 * @source   contract, section 1
 */
export function readTables(
  text: string,
  fileName: string,
  needed: readonly Role[],
): Result<Tables, TableRefusal> {
  if (/\.(s\d+p|ts)$/i.test(fileName))
    return refuse(
      'not-understood',
      fileName,
      'a Touchstone file holds a response, not levels; give a CSV with frequency_mhz,level_dbmv',
    );
  const whole = plainText(text, fileName);
  if (!whole.ok) return whole;
  const json = tablesInJson(text, needed, fileName);
  if (json !== null) return json;
  const plain = withFooters(whole.value);
  const found = tablesIn(plain, needed, fileName);
  if (found !== null) return found;
  const headed = withCommentedHeader(plain);
  const second = headed === null ? null : tablesIn({ ...plain, ...headed }, needed, fileName);
  if (second !== null) return second;
  const { text: bare, toldSeparator } = plain;
  const made = rowsOfCellLines(bare);
  const third = made === null ? null : tablesIn({ ...plain, text: made }, needed, fileName);
  if (third !== null) return third;
  const fourth = tablesInLines(plain, needed, fileName);
  if (fourth !== null) return fourth;
  for (const separator of toldSeparator === null ? [',', ';', '\t'] : [toldSeparator]) {
    const grid = gridOf(headOf(bare), separator, fileName);
    const clash = grid.ok ? clashRefusal(findTables(grid.value, separator, []), fileName) : grid;
    if (clash !== null) return clash;
  }
  return whyNone(bare, toldSeparator, needed, fileName);
}

/**
 * A file's text to its only table.
 * @param text      as decoded
 * @param fileName  named in every refusal
 * @param needed    the columns without which it is no use
 * @returns  the table with at least a header; or a refusal with file and line
 * @source   contract, section 1
 */
export function readTable(
  text: string,
  fileName: string,
  needed: readonly Role[],
): Result<Table, TableRefusal> {
  const tables = readTables(text, fileName, needed);
  if (!tables.ok) return tables;
  const [only, second] = tables.value.tables;
  if (only === undefined) throw new RangeError('read, and no table');
  if (second === undefined) return done(only);
  return refuse(
    'several-tables',
    `${fileName}, line ${second.header.line}`,
    'a second table begins here; keep the one that counts',
  );
}
