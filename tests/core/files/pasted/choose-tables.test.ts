import { expect, it } from 'vitest';
import { chosenTables, foundTable, tableWords } from '../../../../core/files/pasted/choose-tables.ts';
import { tablesOfSweep } from '../../../../core/files/sweep-csv.ts';

const choose = (text: string, told: number | null = null) => {
  const tables = tablesOfSweep(text, 'x');
  if (!tables.ok) throw new Error(tables.help);
  const { all, found, read } = tables.value;
  expect(found).toEqual(all.tables.map((table, i) => foundTable(table, i + 1, read[i] ?? null)));
  const chosen = chosenTables(found, read, told, 'x');
  return chosen.ok ? chosen.value.numbers : chosen.code;
};
const table = (...mhz: number[]) =>
  `Frequency (MHz)\tLevel (dBmV)\n${mhz.map((f) => `${f}\t1\n`).join('')}\n`;

it('joins what is plainly one sweep', () => {
  expect(choose(table(300, 306) + table(600))).toEqual([1, 2]);
});

it('asks where bands of two directions, or the same frequency, stand in both', () => {
  expect(choose(table(16, 22) + table(600))).toBe('several-tables');
  expect(choose(table(300) + table(300))).toBe('several-tables');
  expect(choose(table(16) + table(600), 2)).toEqual([2]);
  expect(choose(table(16), 3)).toBe('no-such-table');
});

it('tells a table in a few words', () => {
  const tables = tablesOfSweep(`Here\n${table(300, 306)}`, 'x');
  expect(tables.ok && tables.value.found.map(tableWords)).toEqual([
    'table 1 "Here" (line 2, 2 rows, 300 to 306 MHz)',
  ]);
});
