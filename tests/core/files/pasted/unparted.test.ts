import { expect, it } from 'vitest';
import { tablesInJson, tablesInLines } from '../../../../core/files/pasted/unparted.ts';
import { refusalLine } from '../../../../core/result.ts';

const needed = ['frequency', 'level'] as const;
const inLines = (text: string) => tablesInLines({ text, comments: [] }, needed, 'a.txt');

it('says by what the cells were parted', () => {
  const of = (read: ReturnType<typeof inLines>) => (read?.ok ? read.value.separator : read);
  expect(of(inLines('freq_mhz.1 = 57\nlevel_dbmv.1 = 36'))).toBe('names with an index');
  expect(of(inLines('12:03:55 57 MHz 36 dBmV'))).toBe('the words of a log');
  expect(of(tablesInJson('[{"freq_mhz":57,\r\n"level_dbmv":36}]', needed, 'a.json'))).toBe(
    'the keys of JSON',
  );
  expect(inLines('57 36')).toBeNull();
  expect(tablesInJson('57,36', needed, 'a.csv')).toBeNull();
});

it('refuses two names of a level, and rows without one', () => {
  const line = (read: ReturnType<typeof inLines>) => (read === null || read.ok ? read : refusalLine(read));
  expect(line(inLines('f_mhz.1 = 57\nlevel_dbmv.1 = 36\npower_dbmv.1 = 37'))).toBe(
    'a.txt, line 1: both "level_dbmv" and "power_dbmv" name a level; keep the one that counts',
  );
  expect(line(tablesInJson('{"rows":[{"freq":57,"errors":3}]}', needed, 'a.json'))).toMatch(
    /^a\.json, line 1: no keys for a frequency and a level among "rows freq errors"/,
  );
});
