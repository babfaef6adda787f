import { expect, it } from 'vitest';
import { headedByCells } from '../../../../core/files/pasted/headless.ts';

const rowsOf = (...lines: string[]) => lines.map((text, i) => ({ line: i + 1, cells: text.split(';') }));

it('names columns by the units that every cell carries', () => {
  const table = headedByCells(rowsOf('1;57 MHz;5 dBmV;38 dB', '2;63 MHz;6 dBmV;37 dB'), ';');
  expect(table?.header.cells).toEqual(['', 'frequency', 'level', 'mer']);
});

it('is not certain where a cell has none, or two columns could be it', () => {
  expect(headedByCells(rowsOf('57 MHz;5 dBmV', '63;6 dBmV'), ';')).toBeNull();
  expect(headedByCells(rowsOf('57 MHz;5 dBmV;65 dBuV'), ';')).toBeNull();
  expect(headedByCells([], ';')).toBeNull();
});
