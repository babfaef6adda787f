import { done, type Refusal, type Result, refuse } from '../result.ts';
import { type CsvRow, firstRow, plainText, splitRows } from './csv-lines.ts';
import { type HeaderWord, headerWord, type Role } from './header-words.ts';

export type Column = Readonly<{ index: number; header: string; word: HeaderWord }>;

/** A table whose separator and columns are certain; its cells are still text. */
export type Table = Readonly<{
  separator: string;
  header: CsvRow;
  columns: Readonly<Partial<Record<Role, Column>>>;
  body: readonly CsvRow[];
}>;

const example = 'frequency_mhz,level_dbmv';
const separators = [',', ';', '\t'] as const;
const separatorName = (separator: string) =>
  separator === '\t' ? 'tab' : separator === ',' ? 'comma' : separator === ';' ? 'semicolon' : separator;

/** The first column of each role; two frequencies or two levels are not for us to choose from. */
function columnsOf(header: CsvRow, fileName: string): Result<Table['columns'], 'two-columns'> {
  const columns: Partial<Record<Role, Column>> = {};
  for (const [index, text] of header.cells.entries()) {
    const word = headerWord(text);
    if (word.role === null) continue;
    const earlier = columns[word.role];
    if (earlier === undefined) columns[word.role] = { index, header: text, word };
    else if (word.role === 'frequency' || word.role === 'level')
      return refuse(
        'two-columns',
        `${fileName}, line ${header.line}`,
        `both "${earlier.header}" and "${text}" name a ${word.role}; keep the one that counts`,
      );
  }
  return done(columns);
}

/** Why a first row is no header, in words that fit what it looks like. */
function notAHeader(header: CsvRow, needed: readonly Role[], fileName: string) {
  const where = `${fileName}, line ${header.line}`;
  if (/^\s*[[{<|]/.test(header.cells.join(' ')))
    return refuse('not-understood', where, `this is no table with a header; a sweep begins with ${example}`);
  if (/^[+-]?\d/.test(header.cells.find((cell) => cell !== '') ?? ''))
    return refuse('no-header', where, `the columns have no names; write ${example} as the first line`);
  const found = header.cells.filter((cell) => cell !== '').slice(0, 8);
  const missing = needed.map((role) => `a ${role}`).join(' and ');
  const help = `no columns for ${missing} among "${found.join('", "').slice(0, 120)}"; name them as in ${example}`;
  return refuse('no-header', where, help);
}

export type TableRefusal =
  | 'not-text'
  | 'empty'
  | 'bad-quotes'
  | 'two-columns'
  | 'not-understood'
  | 'no-header'
  | 'two-separators'
  | 'row-length';

/** The one separator with which the first row names every needed column. */
function separatorOf(
  text: string,
  told: string | null,
  needed: readonly Role[],
  fileName: string,
): Result<string, TableRefusal> {
  const fitting: string[] = [];
  let refusal: Readonly<{ width: number; why: Refusal<TableRefusal> }> | null = null;
  for (const separator of told === null ? separators : [told]) {
    const header = firstRow(text, separator);
    const columns = columnsOf(header, fileName);
    if (columns.ok && needed.every((role) => columns.value[role] !== undefined)) fitting.push(separator);
    else if (refusal === null || header.cells.length > refusal.width)
      refusal = {
        width: header.cells.length,
        why: columns.ok ? notAHeader(header, needed, fileName) : columns,
      };
  }
  const [only, second] = fitting;
  if (only === undefined) return refusal?.why ?? refuse('empty', fileName, 'the file has no rows');
  // A single column needs no separator, so that every one fits; then the first is as good as any.
  if (second === undefined || needed.length === 1) return done(only);
  return refuse(
    'two-separators',
    `${fileName}, line ${firstRow(text, only).line}`,
    `both ${separatorName(only)} and ${separatorName(second)} part this header; use one of them`,
  );
}

/**
 * A file's text to a table: separator and columns decided, or refused.
 * @param text      as decoded from UTF-8
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
  if (/\.(s\d+p|ts)$/i.test(fileName))
    return refuse(
      'not-understood',
      fileName,
      'a Touchstone file holds a response, not levels; give a CSV with frequency_mhz,level_dbmv',
    );
  const plain = plainText(text, fileName);
  if (!plain.ok) return plain;
  const separator = separatorOf(plain.value.text, plain.value.toldSeparator, needed, fileName);
  if (!separator.ok) return separator;
  const rows = splitRows(plain.value.text, separator.value, fileName);
  if (!rows.ok) return rows;
  const header = rows.value[0];
  if (header === undefined) return refuse('empty', fileName, 'the file has no rows');
  const body = rows.value.slice(1);
  const named = columnsOf(header, fileName);
  if (!named.ok) return named;
  const columns = named.value;
  const width = header.cells.length;
  for (const row of body) {
    const where = `${fileName}, line ${row.line}`;
    if (row.cells.slice(width).some((cell) => cell !== ''))
      return refuse(
        'row-length',
        where,
        `${row.cells.length} cells under ${width} headings; a decimal comma must not also part the cells`,
      );
    const short = needed.find((role) => (columns[role]?.index ?? 0) >= row.cells.length);
    const last = row === body.at(-1) && plain.value.unended && row.cells.length < width;
    if (short !== undefined || last)
      return refuse('row-length', where, `${row.cells.length} of ${width} cells: the row is cut off`);
  }
  return done({ separator: separator.value, header, columns, body });
}
