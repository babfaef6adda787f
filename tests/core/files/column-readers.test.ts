import { expect, it } from 'vitest';
import { ownLevelUnit, readersOf } from '../../../core/files/column-readers.ts';
import { levelUnitOf } from '../../../core/files/level-unit.ts';
import { columnsOf, type Table } from '../../../core/files/pasted/table.ts';
import { cellsOf } from '../../../core/files/table-cells.ts';

const table = (cells: readonly string[], ...rows: string[][]): Table => {
  const header = { line: 1, cells };
  const body = rows.map((row, i) => ({ line: i + 2, cells: row }));
  return { separator: '\t', layout: 'rows', header, columns: columnsOf(header).columns, body, titles: [] };
};
it('finds the unit that a whole table carries', () => {
  expect(ownLevelUnit(table(['f_mhz', 'Power'], ['57', '1 dBmV'], ['63', '2 dBmV']), levelUnitOf)).toBe(
    'dBmV',
  );
  expect(ownLevelUnit(table(['f_mhz', 'Power'], ['57', '1 dBmV'], ['63', '2']), levelUnitOf)).toBeNull();
});

it('decides marks by column, and doubtful ones by what the others show', () => {
  const silent = { frequency: null, level: null, isIn50Ohm: false, parts: 1 } as const;
  const nothing = { prose: silent, foot: silent, told: {}, sibling: null } as const;
  const decided = (level: string, mer: string) => {
    const one = table(['f_mhz', 'dBmV', 'MER'], ['57', level, mer]);
    const readers = readersOf(one, cellsOf(one, 'x'), nothing);
    return readers.ok ? readers.value.level.marks.decimal : readers.where;
  };
  expect(decided('1,5', '37.6')).toBe(',');
  expect(decided('1,234', '37,6')).toBe(',');
  expect(decided('1,234', '37.6')).toBe('x, line 2, column "dBmV"');
  expect(() => {
    const none = table(['a'], ['1']);
    readersOf(none, cellsOf(none, 'x'), nothing);
  }).toThrow(RangeError);
});
