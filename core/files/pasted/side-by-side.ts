import type { CsvRow } from '../csv-lines.ts';
import { isNumberLike } from './body-end.ts';
import { columnsOf } from './table.ts';

/** How wide a heading's group is that comes again and again, with or without an empty column between: null for none. */
function groupsIn(cells: readonly string[]): Readonly<{ width: number; stride: number }> | null {
  for (let width = 2; width * 2 <= cells.length; width++) {
    for (const stride of [width, width + 1]) {
      if ((cells.length + stride - width) % stride !== 0 || cells.length < width + stride) continue;
      const isRepeated = cells.every((cell, i) =>
        i % stride >= width ? cell === '' : cell !== '' && cell === cells[i % stride],
      );
      if (isRepeated) return { width, stride };
    }
  }
  return null;
}

/** One group's headings where they name frequency and level; null also where titles above say that they are not the same. */
function headOf(heading: CsvRow, width: number, above: CsvRow | undefined): CsvRow | null {
  const titles = above?.cells.filter((cell) => cell !== '' && !isNumberLike(cell)) ?? [];
  const first = { ...heading, cells: heading.cells.slice(0, width) };
  const { columns, clash } = columnsOf(first);
  const names = clash === null && columns.frequency !== undefined && columns.level !== undefined;
  return names && titles.length < 2 ? first : null;
}

/**
 * Rows in which tables that stand side by side under the same headings have come one under the other, each with its
 * heading, so that they are joined only where tables one under the other would be.
 * @param rows  of one separator
 * @returns  the same rows where no heading repeats itself so; a row that holds more than the heading stays as it is
 * @source   common practice, no published source
 */
export function oneUnderOther(rows: readonly CsvRow[]): readonly CsvRow[] {
  const made: CsvRow[] = [];
  let at = 0;
  while (at < rows.length) {
    const heading = rows[at];
    if (heading === undefined) break;
    const groups =
      heading.cells.length > 3 && !heading.cells.some(isNumberLike) ? groupsIn(heading.cells) : null;
    const first = groups === null ? null : headOf(heading, groups.width, rows[at - 1]);
    if (groups === null || first === null) {
      made.push(heading);
      at++;
      continue;
    }
    let end = at + 1;
    while (rows[end]?.cells.some(isNumberLike) && (rows[end]?.cells.length ?? 0) <= heading.cells.length)
      end++;
    const body = rows.slice(at + 1, end);
    for (let from = 0; from < heading.cells.length; from += groups.stride) {
      made.push(first);
      for (const row of body) {
        const cells = first.cells.map((_, i) => row.cells[from + i] ?? '');
        if (cells.some((cell) => cell !== '')) made.push({ ...row, cells });
      }
    }
    at = end;
  }
  return made;
}
