import { expect, it } from 'vitest';
import { columnsOf, type Table } from '../../../core/files/pasted/table.ts';
import { cellsOf, lockRefusal } from '../../../core/files/table-cells.ts';

const table = (cells: readonly string[], ...rows: string[][]): Table => {
  const header = { line: 1, cells };
  const body = rows.map((row, i) => ({ line: i + 2, cells: row }));
  return { separator: ',', layout: 'rows', header, columns: columnsOf(header).columns, body, titles: [] };
};

it('asks for cells by role, and finds modulations without a name', () => {
  const one = table(['f_mhz', 'dBmV', 'x'], ['57', '1', '256QAM'], ['63', '-', '']);
  const cells = cellsOf(one, 'x');
  const [first, second] = one.body;
  if (first === undefined || second === undefined) throw new Error('no rows');
  expect([cells.text(first, 'level'), cells.modulation(first), cells.written(second, 'level').kind]).toEqual([
    '1',
    '256QAM',
    'blank',
  ]);
  expect(cells.numbers('level')).toEqual([{ digits: '1', unit: '', where: 'x, line 2, column "dBmV"' }]);
});

it('knows a slot that is not locked', () => {
  const one = table(
    ['f_mhz', 'dBmV', 'locked'],
    ['0', '1', ''],
    ['57', '1', 'Not Locked'],
    ['57', '1', 'yes'],
  );
  expect(one.body.map(cellsOf(one, 'x').isDead)).toEqual([true, true, false]);
});

it('knows a column of locks by its cells, where one says plainly that a slot is not locked', () => {
  const said = (...words: string[]) => {
    const one = table(['f_mhz', 'dBmV', 'x'], ...words.map((word) => ['57', '1', word]));
    return one.body.map(cellsOf(one, 'x').isDead);
  };
  expect(said('vergrendeld', 'niet vergrendeld')).toEqual([false, true]);
  // "no" may answer any question.
  expect(said('yes', 'no')).toEqual([false, false]);
  expect(said('not locked', 'perhaps')).toEqual([false, false]);
});

it('refuses a word for the lock that says neither', () => {
  const one = table(['f_mhz', 'dBmV', 'locked'], ['57', '1', 'perhaps']);
  expect(lockRefusal(one, cellsOf(one, 'x'))).toMatchObject({ where: 'x, line 2, column "locked"' });
});
