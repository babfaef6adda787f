import { expect, it } from 'vitest';
import { findTables, hasReading } from '../../../../core/files/pasted/find-tables.ts';
import { gridOf } from '../../../../core/files/pasted/grid.ts';

const found = (text: string) => {
  const grid = gridOf(text, '\t', 'x');
  if (!grid.ok) throw new Error(grid.help);
  return findTables(grid.value, '\t', ['frequency', 'level']);
};

it('finds every table with its titles, and tells of all that is none', () => {
  const { tables, rest } = found('Aa\nf_mhz\tdBmV\n57\t1\n\nBb\nf_mhz\tdBmV\n63\t2\n\nx\ty\nfoot\n');
  expect(
    tables.map(({ titles, body }) => [titles.map(({ text }) => text), body.map(({ line }) => line)]),
  ).toEqual([
    [['Aa'], [3]],
    [['Bb'], [7]],
  ]);
  expect(rest.map(({ line }) => line)).toEqual([9, 10]);
});

it('drops no row without a word: every line is in a table, a title or the rest', () => {
  const text = 'A\nf_mhz\tdBmV\n57\t1\nsection\n63\t2\nlow\tx\n\nC\tD\n1\t2\nend\n';
  const { tables, rest } = found(text);
  const lines = [
    ...tables.flatMap((table) => [
      table.header.line,
      ...table.body.map(({ line }) => line),
      ...table.titles.map(({ line }) => line),
    ]),
    ...rest.map(({ line }) => line),
  ].sort((a, b) => a - b);
  expect(lines).toEqual([1, 2, 3, 4, 5, 6, 8, 9, 10]);
});

it('takes prose that names both quantities for no heading', () => {
  const { tables } = found('level in dBmV\tfrequency in MHz\nf_mhz\tdBmV\n57\t1\n');
  expect(tables.map(({ header }) => header.line)).toEqual([2]);
  expect(tables.map(hasReading)).toEqual([true]);
});

it('names two headings that say the same', () => {
  expect(found('f_mhz\tlevel_dbmv\tlevel_db\n57\t1\t61\n').clash).toMatchObject({ line: 1, role: 'level' });
});
