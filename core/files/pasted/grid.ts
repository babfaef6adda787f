import { done, type Result } from '../../result.ts';
import { type CsvRow, splitRows } from '../csv-lines.ts';
import { splitAtBlanks } from './blank-columns.ts';
import { bareCell } from './dressing.ts';

/** What can part the cells of a row, in the order in which they are tried. */
export const separators = [',', ';', '\t', '|', ' ', ':'] as const;
export type Separator = (typeof separators)[number];

const names: Readonly<Record<string, string>> = {
  ',': 'comma',
  ';': 'semicolon',
  '\t': 'tab',
  '|': 'bar',
  ' ': 'blanks',
  ':': 'colon',
};

/**
 * A separator as a person calls it.
 * @returns  its name, or itself where it has none
 * @source   common practice, no published source
 */
export const separatorName = (separator: string): string => names[separator] ?? separator;

const notBlank = (row: CsvRow) => row.cells.some((cell) => cell !== '');

function splitAtBars(text: string): CsvRow[] {
  return text.split('\n').flatMap((line, i) => {
    const bare = line.replace(/[\u2502\u2503\u2551]/g, '|').trim();
    if (bare === '') return [];
    const cells = bare.replace(/^\|/, '').replace(/\|$/, '').split('|');
    return [{ line: i + 1, cells: cells.map((cell) => bareCell(cell.trim())) }];
  });
}

/** "Frequency: 57 MHz", a line for each quantity. */
function splitAtColons(text: string): CsvRow[] {
  return text.split('\n').flatMap((line, i) => {
    const match = /^\s*([^:=]*?)\s*[:=]\s*(.*)$/.exec(line);
    const cells = match === null ? [line.trim()] : [match[1] ?? '', (match[2] ?? '').trim()];
    return line.trim() === '' ? [] : [{ line: i + 1, cells }];
  });
}

/**
 * Splits plain text into rows of cells.
 * @param text       from `plainText`
 * @param separator  one of those here, or what the file itself tells
 * @param fileName   named in a refusal
 * @returns  every row that is not blank, its cells trimmed; or a refusal with the line of a quote that does not close
 * @source   RFC 4180 for comma, semicolon and tab; the others are common practice, no published source
 */
export function gridOf(text: string, separator: string, fileName: string): Result<CsvRow[], 'bad-quotes'> {
  if (separator === '|') return done(splitAtBars(text).filter(notBlank));
  if (separator === ' ') return done(splitAtBlanks(text));
  if (separator === ':') return done(splitAtColons(text).filter(notBlank));
  return splitRows(text, separator, fileName);
}

/**
 * Whether a text can be parted so at all.
 * @returns  false where the separator does not stand in it
 * @source   common practice, no published source
 */
export const mayPart = (text: string, separator: Separator): boolean =>
  separator === '|'
    ? /[|\u2502\u2503\u2551]/.test(text)
    : separator === ':'
      ? /[:=]/.test(text)
      : text.includes(separator);
