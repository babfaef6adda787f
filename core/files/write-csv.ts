import type { LevelRow } from '../line/level-row.ts';
import { commentText, textCell } from './text-cell.ts';

/** Millionths: far below what any meter repeats, and free of the tails that adding test point losses leaves. */
const number = (value: number): string => {
  if (!Number.isFinite(value)) throw new RangeError(`${value} can't be written as a level or a frequency`);
  return String(Number(value.toFixed(6)) + 0);
};

type Column = Readonly<{ header: string; isNumber?: true; cell: (row: LevelRow) => string }>;

const always: readonly Column[] = [
  {
    header: 'frequency_mhz',
    isNumber: true,
    cell: (row) => (row.frequencyMhz === null ? '' : number(row.frequencyMhz)),
  },
  {
    header: 'level_dbmv',
    isNumber: true,
    cell: (row) => (row.levelDbmv === null ? '' : number(row.levelDbmv)),
  },
];
const whereUsed: readonly Column[] = [
  { header: 'kind', cell: (row) => row.kind ?? '' },
  { header: 'modulation', cell: (row) => textCell(row.modulation ?? '') },
  { header: 'mer_db', isNumber: true, cell: (row) => (row.merDb === undefined ? '' : number(row.merDb)) },
  { header: 'label', cell: (row) => textCell(row.label ?? '') },
  { header: 'locked', cell: (row) => (row.unlocked ? 'no' : '') },
];

/** A fourth decimal where there are three, so that nobody takes the comma for a mark of thousands. */
const withComma = (digits: string): string => digits.replace('.', ',').replace(/(,\d{3})$/, '$10');

/** How a CSV is written: what parts its cells, begins a fraction and ends a line. */
export type CsvForm = Readonly<{
  separator: ',' | ';';
  decimal: '.' | ',';
  lineEnd: '\n' | '\r\n';
  byteOrderMark: boolean;
}>;

/** The project's own form. */
export const OWN_FORM: CsvForm = { separator: ',', decimal: '.', lineEnd: '\n', byteOrderMark: false };

/**
 * Rows as CSV with the header of the project's own, in any form.
 * @param rows      MHz and dBmV at 75 ohm; written to a millionth
 * @param comments  lines about the sweep, written above the header
 * @param form      the project's own unless told; decimal commas never with commas between the cells
 * @returns  the file's text; `readSweepCsv` reads the same rows from it, but for their lines and reasons
 * @throws   RangeError for NaN and infinities, which no row may hold, and for a form that can't be read back
 * @source   contract, section 1; RFC 4180
 */
export function writeSweepCsv(
  rows: readonly LevelRow[],
  comments: readonly string[] = [],
  form: CsvForm = OWN_FORM,
): string {
  const { separator, decimal, lineEnd, byteOrderMark } = form;
  if (separator === decimal) throw new RangeError('a comma can not part cells and fractions');
  const columns = [...always, ...whereUsed.filter(({ cell }) => rows.some((row) => cell(row) !== ''))];
  const cellOf = ({ isNumber, cell }: Column, row: LevelRow) =>
    isNumber && decimal === ',' ? withComma(cell(row)) : cell(row);
  const lines = [
    ...comments.map((comment) => `# ${commentText(comment)}`),
    columns.map(({ header }) => header).join(separator),
    ...rows.map((row) => columns.map((column) => cellOf(column, row)).join(separator)),
  ];
  return `${byteOrderMark ? '\uFEFF' : ''}${lines.join(lineEnd)}${lineEnd}`;
}
