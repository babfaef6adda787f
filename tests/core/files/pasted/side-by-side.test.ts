import { expect, it } from 'vitest';
import { oneUnderOther } from '../../../../core/files/pasted/side-by-side.ts';

const rowsOf = (...lines: string[]) => lines.map((text, i) => ({ line: i + 1, cells: text.split(';') }));
const made = (...lines: string[]) =>
  oneUnderOther(rowsOf(...lines)).map(({ line, cells }) => `${line} ${cells.join(';')}`);

it('puts the right table under the left one, each under its heading and each row on its line', () => {
  expect(made('x', 'MHz;dBmV;;MHz;dBmV', '57;1;;69;3', '63;2', 'end')).toEqual([
    '1 x',
    '2 MHz;dBmV',
    '3 57;1',
    '4 63;2',
    '2 MHz;dBmV',
    '3 69;3',
    '5 end',
  ]);
});

it('leaves every other heading as it is', () => {
  for (const lines of [
    ['MHz;dBmV;dB', '57;1;2'],
    ['MHz;dBmV;MHz;dBuV', '57;1;63;61'],
    ['a;b;a;b', '1;2;3;4'],
    // Titles say that they are not the same.
    ['Before;;After;', 'MHz;dBmV;MHz;dBmV', '57;1;57;2'],
  ])
    expect(made(...lines)).toEqual(lines.map((line, i) => `${i + 1} ${line}`));
});
