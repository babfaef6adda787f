import { expect, it } from 'vitest';
import { columnsOf, type Table } from '../../../core/files/pasted/table.ts';
import { rowsOfTable } from '../../../core/files/table-rows.ts';

const table = (cells: readonly string[], ...rows: string[][]): Table => {
  const header = { line: 1, cells };
  const body = rows.map((row, i) => ({ line: i + 2, cells: row }));
  return { separator: '\t', layout: 'rows', header, columns: columnsOf(header).columns, body, titles: [] };
};
const nothing = { prose: { frequency: null, level: null, parts: 1 }, told: {}, sibling: null } as const;
const bare = table(['Frequency', 'Level'], ['57', '96.5']);

it('takes a unit from beside only where the table has none, and says so', () => {
  expect(rowsOfTable(bare, nothing, 'x')).toMatchObject({ ok: false, code: 'no-unit' });
  const prose = { ...nothing, prose: { frequency: null, level: 'dBuV', parts: 1 } } as const;
  expect(rowsOfTable(bare, prose, 'x')).toMatchObject({
    ok: true,
    value: {
      rows: [{ levelDbmv: 36.5 }],
      levelUnit: 'dBuV',
      notes: ['the unit of level, dBuV, stands in a line above the table'],
    },
  });
  const own = table(['Frequency', 'Level (dBmV)'], ['57', '36.5']);
  expect(rowsOfTable(own, prose, 'x')).toMatchObject({ ok: true, value: { levelUnit: 'dBmV', notes: [] } });
  expect(rowsOfTable(bare, { ...nothing, told: { levelUnit: 'dBuV' } }, 'x')).toMatchObject({
    ok: true,
    value: { notes: [] },
  });
});
