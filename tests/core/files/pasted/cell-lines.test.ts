import { expect, it } from 'vitest';
import { rowsOfCellLines } from '../../../../core/files/pasted/cell-lines.ts';

const made = (...lines: string[]) => rowsOfCellLines(lines.join('\n'))?.split('\n');

it('makes a row of as many lines as there are headings, on the line of its first', () => {
  expect(
    made('Title', 'Ch', 'Frequency', 'Power', '1', '57 MHz', '3 dBmV', '2', '63 MHz', '4 dBmV', 'end'),
  ).toEqual([
    'Title',
    'Ch\tFrequency\tPower',
    '',
    '',
    '1\t57 MHz\t3 dBmV',
    '',
    '',
    '2\t63 MHz\t4 dBmV',
    '',
    '',
    'end',
  ]);
});

it('is none where a cell is missing, nothing says what a number is, or one row is all', () => {
  expect(made('Frequency', 'Power', '57 MHz', '3 dBmV', '63 MHz', '69 MHz', '4 dBmV')).toBeUndefined();
  expect(made('Frequency', 'Power', 'SNR', '57', '3', '38', '63', '4', '38')).toBeUndefined();
  expect(made('Frequency', 'Power', '57 MHz', '3 dBmV')).toBeUndefined();
  expect(made('57 MHz', '3 dBmV', '63 MHz', '4 dBmV')).toBeUndefined();
});
