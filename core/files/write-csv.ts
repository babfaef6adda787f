import type { LevelRow } from '../line/level-row.ts';
import { textCell } from './text-cell.ts';

/** Millionths: far below what any meter repeats, and free of the tails that adding test point losses leaves. */
const number = (value: number): string => {
  if (!Number.isFinite(value)) throw new RangeError(`${value} can't be written as a level or a frequency`);
  return String(Number(value.toFixed(6)) + 0);
};

type Column = Readonly<{ header: string; cell: (row: LevelRow) => string }>;

const always: readonly Column[] = [
  { header: 'frequency_mhz', cell: (row) => (row.frequencyMhz === null ? '' : number(row.frequencyMhz)) },
  { header: 'level_dbmv', cell: (row) => (row.levelDbmv === null ? '' : number(row.levelDbmv)) },
];
const whereUsed: readonly Column[] = [
  { header: 'kind', cell: (row) => row.kind ?? '' },
  { header: 'modulation', cell: (row) => textCell(row.modulation ?? '') },
  { header: 'mer_db', cell: (row) => (row.merDb === undefined ? '' : number(row.merDb)) },
  { header: 'label', cell: (row) => textCell(row.label ?? '') },
  { header: 'locked', cell: (row) => (row.unlocked ? 'no' : '') },
];

/**
 * Rows as the project's own CSV: decimal points, line feeds, the optional columns that any row uses.
 * @param rows      MHz and dBmV at 75 ohm; written to a millionth
 * @param comments  lines about the sweep, written above the header
 * @returns  the file's text; `readSweepCsv` reads the same rows from it, but for their lines and reasons
 * @throws   RangeError for NaN and infinities, which no row may hold
 * @source   contract, section 1; RFC 4180
 */
export function writeSweepCsv(rows: readonly LevelRow[], comments: readonly string[] = []): string {
  const columns = [...always, ...whereUsed.filter(({ cell }) => rows.some((row) => cell(row) !== ''))];
  const lines = [
    ...comments.map((comment) => `# ${comment.replace(/\s+/g, ' ').trim()}`),
    columns.map(({ header }) => header).join(','),
    ...rows.map((row) => columns.map(({ cell }) => cell(row)).join(',')),
  ];
  return `${lines.join('\n')}\n`;
}
