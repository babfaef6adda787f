import { expect, it } from 'vitest';
import { withOneLevel } from '../../../../core/files/pasted/one-level.ts';
import { columnsOf, type Table } from '../../../../core/files/pasted/table.ts';
import { refusalLine } from '../../../../core/result.ts';

const table = (heads: readonly string[], ...rows: readonly (readonly string[])[]): Table => {
  const header = { line: 1, cells: heads };
  const body = rows.map((cells, i) => ({ line: i + 2, cells }));
  return { separator: ';', layout: 'rows', header, columns: columnsOf(header).columns, body, titles: [] };
};
const levels = (one: Table): string => {
  const read = withOneLevel(one, 'x');
  return read.ok ? read.value.body.map(({ cells }) => cells[1]).join('; ') : refusalLine(read);
};

// dBuV stands 60 dB above dBmV; 0 dBmV in 75 ohm is -48.75 dBm.
it.each([
  ['Power (dBmV/dBuV)', '8.3 / 68.3', '8.3 dBmV'],
  ['Power (dBuV/dBmV)', '68,3/8,3', '8,3 dBmV'],
  ['Power', '8.3 dBmV (68.3 dB\u00B5V)', '8.3 dBmV'],
  ['Power', '-40.5 dBm | 8.3 dBmV', '8.3 dBmV'],
  ['Power (dBm/dBuV)', '-40.5 / 68.3', '-40.5 dBm'],
  ['Power', '8.3 dBmV', '8.3 dBmV'],
])('%s, %s: one level', (head, cell, expected) => {
  expect(levels(table(['MHz', head], ['57', cell]))).toBe(expected);
});

it('refuses two that are not the same, and two of which nothing says the units', () => {
  expect(levels(table(['MHz', 'Power (dBmV/dBuV)'], ['57', '8.3 / 68.6']))).toMatch(
    /line 2, column "Power .*not the same level in dBmV and dBµV/,
  );
  expect(levels(table(['MHz', 'Power'], ['57', '8.3 / 68.3']))).toMatch(/is two levels; keep one a cell/);
  expect(levels(table(['MHz', 'Power (dBmV)'], ['57', '8.3 / 9.3']))).toMatch(/is two levels/);
});

it('holds a second column of another unit to the first', () => {
  const heads = ['MHz', 'dBmV', 'dBuV'];
  expect(levels(table(heads, ['57', '8.3', '68.3'], ['63', '0', '0'], ['69', '', '']))).toBe('8.3; 0; ');
  expect(levels(table(heads, ['57', '8.3', '68.3'], ['63', '8.3', '69']))).toMatch(
    /line 3, column "dBmV": 8.3 under "dBmV" and 69 under "dBuV" are not the same level/,
  );
});
