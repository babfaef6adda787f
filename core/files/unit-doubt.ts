import type { LevelRow } from '../line/level-row.ts';
import { type Refusal, refuse } from '../result.ts';
import type { Table } from './pasted/table.ts';
import type { TableCells } from './table-cells.ts';

/** Beyond what any line carries; one such level, or most of them below, shows that the unit is another one. */
const FAR_DBMV = 120;
const SHOWN = 40;

/** Levels that no line carries show that their unit is another one than it seems. */
function farRefusal(
  rows: readonly LevelRow[],
  cells: TableCells,
  table: Table,
): Refusal<'out-of-range'> | null {
  let at = rows.findIndex(({ levelDbmv }) => levelDbmv !== null && levelDbmv > FAR_DBMV);
  if (at < 0) {
    const first = rows.findIndex(({ levelDbmv }) => levelDbmv !== null && levelDbmv < -FAR_DBMV);
    if (first < 0) return null;
    const levels = rows.filter(({ levelDbmv }) => levelDbmv !== null);
    const below = levels.filter(({ levelDbmv }) => (levelDbmv ?? 0) < -FAR_DBMV);
    if (below.length * 2 > levels.length) at = first;
  }
  const row = table.body[at];
  if (row === undefined) return null;
  const help = `no line carries ${cells.text(row, 'level').slice(0, SHOWN)}; check the unit, and if it counts tenths, write "tenths of dBmV" in the heading`;
  return refuse('out-of-range', cells.where(row, 'level'), help);
}

/** Voltages that are mostly negative are levels whose unit lost its "dB". */
function negativeRefusal(
  rows: readonly LevelRow[],
  cells: TableCells,
  table: Table,
): Refusal<'wrong-unit'> | null {
  // A number that came to no level is a voltage of 0 or less.
  const negative = table.body.filter((row, i) => {
    const { levelDbmv = null, unlocked = false } = rows[i] ?? {};
    if (levelDbmv !== null || unlocked) return false;
    const one = cells.written(row, 'level');
    return one.kind === 'number' && one.digits.startsWith('-');
  });
  const [first] = negative;
  const levelCount = rows.filter(({ levelDbmv }) => levelDbmv !== null).length;
  if (first === undefined || negative.length <= levelCount) return null;
  const help = `${cells.text(first, 'level').slice(0, SHOWN)} is negative, and no voltage of a signal is; if these are dBmV, write "level_dbmv" in the header`;
  return refuse('wrong-unit', cells.where(first, 'level'), help);
}

/**
 * Whether levels show that their unit is another one than it seems: more than a line carries, or voltages most of which
 * are negative.
 * @param rows   read, one for each row of the table, dBmV at 75 ohm
 * @param cells  of the table
 * @param table  as it was read
 * @returns  the refusal of the first such level, else null
 * @source   contract, section 1: nothing is guessed silently; 120 dBmV is common practice, no published source
 */
export const unitDoubt = (
  rows: readonly LevelRow[],
  cells: TableCells,
  table: Table,
): Refusal<'wrong-unit' | 'out-of-range'> | null =>
  negativeRefusal(rows, cells, table) ?? farRefusal(rows, cells, table);
