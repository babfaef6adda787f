import type { CsvRow } from '../csv-lines.ts';
import { frequencyUnitOf } from '../frequency-unit.ts';
import { levelUnitOf } from '../level-unit.ts';
import { writtenIn } from '../written-number.ts';

/**
 * Whether a row that belongs to no table holds levels all the same: its cells are numbers with their units, a level
 * beside a frequency, or several levels. Passing over it would leave out what somebody meant to give.
 * @param row  of the separator that parts the tables
 * @returns  false for prose in which a level is mentioned
 * @source   contract, section 1: nothing is half imported; what looks like levels is common practice
 */
export function holdsLevels(row: CsvRow): boolean {
  let levels = 0;
  let frequencies = 0;
  let filled = 0;
  for (const cell of row.cells) {
    if (cell === '') continue;
    filled++;
    const one = writtenIn(cell);
    if (one.kind !== 'number' || one.unit === '') continue;
    if (levelUnitOf(one.unit) !== null) levels++;
    else if (frequencyUnitOf(one.unit) !== null) frequencies++;
  }
  const isTold = levels > 1 || (levels > 0 && frequencies > 0);
  return isTold && (levels + frequencies) * 2 >= filled;
}
