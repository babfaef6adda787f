import { expect, it } from 'vitest';
import { columnsOf, placeOf, type Table } from '../../../../core/files/pasted/table.ts';

it('takes the first column of each role and names a clash of two that count', () => {
  const { columns, clash } = columnsOf({
    line: 1,
    cells: ['Channel', 'Channel ID', 'f_mhz', 'Level', 'Power'],
  });
  expect([columns.label?.index, columns.frequency?.index, columns.level?.index]).toEqual([0, 2, 3]);
  expect(clash).toEqual({ role: 'level', one: 'Level', other: 'Power' });
});

it('says where a cell stands, also in a table on its side', () => {
  const header = { line: 3, cells: ['f_mhz', 'dBmV'] };
  const { columns } = columnsOf(header);
  const upright: Table = { separator: ',', layout: 'rows', header, columns, body: [], titles: [] };
  expect(placeOf(upright, { line: 4, cells: [] }, 'level', 'x')).toBe('x, line 4, column "dBmV"');
  const level = columns.level === undefined ? {} : { level: { ...columns.level, line: 5 } };
  const onSide: Table = { ...upright, layout: 'sides', columns: { ...columns, ...level } };
  expect(placeOf(onSide, { line: 3, place: 7, cells: [] }, 'level', 'x')).toBe('x, line 5, column 7');
});
