import { expect, it } from 'vitest';
import { headerWord } from '../../../../core/files/header-words.ts';
import { sideTableAt } from '../../../../core/files/pasted/side-table.ts';

const roleOf = (cell: string) => headerWord(cell).role;
const rowsOf = (...lines: string[]) => lines.map((text, i) => ({ line: i + 1, cells: text.split(' ') }));
const at = (rows: ReturnType<typeof rowsOf>, from = 0) =>
  sideTableAt(rows, from, ['frequency', 'level'], roleOf);

it('turns a table upright and ends where a quantity comes again', () => {
  const side = at(rowsOf('Channel 1 2', 'Frequency 57 63', 'Level 5 6', 'Frequency 69 75', 'Level 7 8'));
  expect(side?.end).toBe(3);
  expect(side?.table.body).toEqual([
    { line: 2, place: 2, cells: ['1', '57', '5'] },
    { line: 2, place: 3, cells: ['2', '63', '6'] },
  ]);
  expect(side?.table.columns.level).toMatchObject({ index: 2, line: 3 });
});

it('is none where a quantity is missing, nothing answers, or the lines are not of one width', () => {
  expect(at(rowsOf('Frequency 57 63', 'SNR 5 6'))).toBeNull();
  expect(at(rowsOf('Frequency x y', 'Level a b'))).toBeNull();
  expect(at(rowsOf('Frequency 57 63', 'Level 5'))).toBeNull();
  expect(at(rowsOf('57 63', '5 6'))).toBeNull();
});
