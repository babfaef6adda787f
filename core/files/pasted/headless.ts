import type { CsvRow } from '../csv-lines.ts';
import { frequencyUnitOf } from '../frequency-unit.ts';
import { headerWord, type Role } from '../header-words.ts';
import { levelUnitOf } from '../level-unit.ts';
import { writtenIn } from '../written-number.ts';
import type { Column, Table } from './table.ts';

const units: readonly (readonly [Role, string, (unit: string) => boolean])[] = [
  ['frequency', 'frequency', (unit) => frequencyUnitOf(unit) !== null],
  ['level', 'level', (unit) => levelUnitOf(unit) !== null],
  ['mer', 'mer', (unit) => unit.toLowerCase() === 'db'],
];

/**
 * A table without headings, where every cell of one column is a frequency with its unit and every cell of one other a
 * level with its unit.
 * @param rows       of one separator
 * @param separator  that parted them
 * @returns  the table, its columns named by what they are; null where that is not certain
 * @source   contract, section 1: units in the cells
 */
export function headedByCells(rows: readonly CsvRow[], separator: string): Table | null {
  const [first] = rows;
  // A dash and a blank before a level may be a minus, or the sign of a list: nobody can tell.
  if (first === undefined || rows.some((row) => /^[-\u2212\u2013] /.test(row.cells[0] ?? ''))) return null;
  const width = first.cells.length;
  const columns: Partial<Record<Role, Column>> = {};
  const header = Array.from({ length: width }, () => '');
  for (const [role, name, isUnit] of units) {
    const fitting = header.flatMap((_, i) => {
      const all = rows.every((row) => {
        const cell = writtenIn(row.cells[i] ?? '');
        return row.cells.length === width && cell.kind === 'number' && isUnit(cell.unit);
      });
      return all ? [i] : [];
    });
    const [index, second] = fitting;
    if (index === undefined || (second !== undefined && role !== 'mer')) continue;
    header[index] = name;
    columns[role] = { index, header: name, word: headerWord(name) };
  }
  if (columns.frequency === undefined || columns.level === undefined) return null;
  return {
    separator,
    layout: 'rows',
    header: { line: first.line, cells: header },
    columns,
    body: rows,
    titles: [],
  };
}
