import { expect, it } from 'vitest';
import { loggedTable } from '../../../../core/files/pasted/logged-lines.ts';

const made = (...lines: string[]) => {
  const log = loggedTable(lines.join('\n'));
  return log === null ? null : [log.table.header.cells, ...log.table.body.map(({ cells }) => cells)];
};

it('takes the one frequency and the one level of each line that begins with a time', () => {
  expect(
    made('12:03:55 ch 57 441.00 MHz 12.3 dBmV', '', '12:03:56 ch 58 447.00 MHz not locked', '12:03:59 done'),
  ).toEqual([
    ['channel', 'frequency', 'level', 'lock'],
    ['57', '441.00 MHz', '12.3 dBmV', ''],
    ['58', '447.00 MHz', '', 'not locked'],
  ]);
  expect(made('[2026-03-02 12:03:55] freq=441MHz level=-2.5dBmV mer=38 dB')).toEqual([
    ['frequency', 'level', 'mer'],
    ['441 MHz', '-2.5 dBmV', '38 dB'],
  ]);
});

it('tells of lines that hold neither', () => {
  expect(loggedTable('12:03:50 begun\n12:03:55 441 MHz 12.3 dBmV')?.rest).toEqual([
    { line: 1, text: '12:03:50 begun' },
  ]);
});

it('is none where a line is not certain', () => {
  const good = '12:03:55 441 MHz 12.3 dBmV';
  expect(made(good)).not.toBeNull();
  for (const line of [
    '441 MHz 12.3 dBmV',
    '12:03:56 447 MHz 12.3 dBmV 13.0 dBmV',
    '12:03:56 447 MHz 12.3',
    '12:03:56 447 MHz',
    '12:03:56 12.3 dBmV',
    '12:03:56 447 MHz - 12.3 dBmV',
    '12:03:56 447 MHz 12.3 to 12.6 dBmV',
    '12:03:56 447 MHz 12.3/12.6 dBmV',
    '12:03:56 447 MHz ~12.3 dBmV',
    '12:03:56 447 MHz max 12.3 dBmV',
    '12:03:56 tx 37 MHz 44 dBmV',
    '12:03:56 447 MHz 12.3 dBmV pad 6 dB',
    '12:03:56 447 MHz 12.3 dBmV 7',
    '12:03:56 elsewhere 447 MHz 12.3 dBmV',
    '12:03:56 level=7 447 MHz 12.3 dBmV',
  ])
    expect([line, made(good, line)]).toEqual([line, null]);
  expect(made('12:03:55 begun')).toBeNull();
});
