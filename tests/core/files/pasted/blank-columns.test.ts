import { expect, it } from 'vitest';
import { splitAtBlanks } from '../../../../core/files/pasted/blank-columns.ts';

const cellsOf = (text: string) => splitAtBlanks(text).map(({ cells }) => cells);

it('keeps every line at its number', () => {
  expect(splitAtBlanks('\nf_mhz  level_dbmv\n\n57  1\n').map(({ line }) => line)).toEqual([2, 4]);
});

it('puts cells under their headings by place where one is empty', () => {
  expect(cellsOf('freq  mod     pow_dbmv\n57    256qam       1\n63                -2\n')).toEqual([
    ['freq', 'mod', 'pow_dbmv'],
    ['57', '256qam', '1'],
    ['63', '', '-2'],
  ]);
});

it('keeps a number, its unit, a state and a modulation in one cell', () => {
  expect(cellsOf('Frequency Power Lock Status Modulation\n57 MHz -1.5 dBmV Not Locked 256 QAM\n')).toEqual([
    ['Frequency', 'Power', 'Lock Status', 'Modulation'],
    ['57 MHz', '-1.5 dBmV', 'Not Locked', '256 QAM'],
  ]);
});

it('gives a row that fits no heading another number of cells', () => {
  expect(cellsOf('frequency_mhz  level_dbmv\n57  1  2  3\n')[1]).toHaveLength(4);
});

it('takes a line of words for one cell', () => {
  expect(cellsOf('f_mhz  level_dbmv\nthe end of it\n')[1]).toEqual(['the end of it']);
});
