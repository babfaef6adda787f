import { frequencyUnitOf } from '../frequency-unit.ts';
import { levelUnitOf } from '../level-unit.ts';
import { writtenIn } from '../written-number.ts';
import { isNumberLike } from './body-end.ts';
import { type Column, columnsOf } from './table.ts';

/** No table has more columns, nor a cell more letters. */
const MOST_COLUMNS = 20;
const LONGEST_CELL = 80;
/** A text of more lines is no paste. */
const MOST_LINES = 20_000;

type Line = Readonly<{ line: number; text: string }>;

/** Whether a cell answers its column with a number and a unit, its own or its heading's. */
function answers(cell: string, column: Column, isUnit: (unit: string) => boolean, headed: boolean): boolean {
  const one = writtenIn(cell);
  return one.kind === 'number' && (one.unit === '' ? headed && column.word.role !== null : isUnit(one.unit));
}

type Block = Readonly<{ rows: readonly (readonly Line[])[]; end: number }>;

/** A heading of `width` lines at `at`, and the rows below it that answer it; null where fewer than two do. */
function blockAt(lines: readonly Line[], at: number, width: number): Block | null {
  const heading = lines.slice(at, at + width);
  const { columns, clash } = columnsOf({ line: 0, cells: heading.map(({ text }) => text) });
  const { frequency, level } = columns;
  if (clash !== null || frequency === undefined || level === undefined) return null;
  const rows: (readonly Line[])[] = [heading];
  let end = at + width;
  for (; end + width <= lines.length; end += width) {
    const row = lines.slice(end, end + width);
    const [atFrequency, atLevel] = [row[frequency.index]?.text ?? '', row[level.index]?.text ?? ''];
    const isRow =
      answers(
        atFrequency,
        frequency,
        (unit) => frequencyUnitOf(unit) !== null,
        frequency.word.frequencyUnit !== null,
      ) && answers(atLevel, level, (unit) => levelUnitOf(unit) !== null, level.word.levelUnit !== null);
    if (!isRow) break;
    rows.push(row);
  }
  return rows.length > 2 ? { rows, end } : null;
}

const isLevel = ({ text }: Line): boolean => {
  const one = writtenIn(text);
  return one.kind === 'number' && levelUnitOf(one.unit) !== null;
};

/**
 * A text in which every cell of a table stands on a line of its own, as some pages are copied: its rows made lines of
 * cells parted by tabs, each on the line of its first cell.
 * @param text  plain, line feeds only
 * @returns  null where the text is not of that form, where a row would have two readings, or where a level is left over
 * @source   common practice, no published source
 */
export function rowsOfCellLines(text: string): string | null {
  const all = text.split('\n');
  if (all.length > MOST_LINES) return null;
  const lines = all.flatMap((one, i) => (one.trim() === '' ? [] : [{ line: i, text: one.trim() }]));
  const made = all.map(() => '');
  let found = 0;
  let at = 0;
  while (at < lines.length) {
    const first = lines[at];
    if (first === undefined) break;
    let widest = 0;
    while (widest < MOST_COLUMNS) {
      const next = lines[at + widest];
      if (next === undefined || next.text.length > LONGEST_CELL || isNumberLike(next.text)) break;
      widest++;
    }
    const fitting = Array.from({ length: Math.max(0, widest - 1) }, (_, i) =>
      blockAt(lines, at, i + 2),
    ).filter((block) => block !== null);
    const [block, second] = fitting;
    if (second !== undefined) return null;
    if (block === undefined) {
      if (isLevel(first)) return null;
      made[first.line] = first.text;
      at++;
      continue;
    }
    for (const row of block.rows) made[row[0]?.line ?? 0] = row.map((cell) => cell.text).join('\t');
    found++;
    at = block.end;
  }
  return found > 0 ? made.join('\n') : null;
}
