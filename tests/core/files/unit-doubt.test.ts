import { expect, it } from 'vitest';
import { columnsOf } from '../../../core/files/pasted/table.ts';
import { cellsOf } from '../../../core/files/table-cells.ts';
import { unitDoubt } from '../../../core/files/unit-doubt.ts';

function doubt(...levels: (readonly [written: string, levelDbmv: number | null])[]) {
  const header = { line: 1, cells: ['Frequency (MHz)', 'Level (mV)'] };
  const body = levels.map(([written], i) => ({ line: i + 2, cells: [String(57 + i), written] }));
  const table = {
    separator: '\t',
    layout: 'rows',
    header,
    columns: columnsOf(header).columns,
    body,
    titles: [],
  } as const;
  const rows = levels.map(([, levelDbmv], i) => ({ frequencyMhz: 57 + i, levelDbmv }));
  return unitDoubt(rows, cellsOf(table, 'x'), table);
}

it('refuses what no line carries', () => {
  expect(doubt(['1', 0], ['1e7', 140])).toMatchObject({
    code: 'out-of-range',
    where: 'x, line 3, column "Level (mV)"',
  });
  expect(doubt(['1', 0], ['1e-9', -180])).toBeNull();
  expect(doubt(['1e-9', -180], ['1e-9', -180], ['1', 0])).toMatchObject({ code: 'out-of-range' });
});

it('refuses voltages that are mostly negative, and leaves one among others to the rows', () => {
  expect(doubt(['-1.5', null], ['-2', null], ['0.5', -6])).toMatchObject({
    code: 'wrong-unit',
    where: 'x, line 2, column "Level (mV)"',
    help: expect.stringContaining('-1.5 is negative'),
  });
  expect(doubt(['-1.5', null], ['2', 6])).toBeNull();
  expect(doubt(['0', null], ['0', null], ['2', 6])).toBeNull();
});
