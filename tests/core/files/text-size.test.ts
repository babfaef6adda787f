import { expect, it } from 'vitest';
import { readSweepFile } from '../../../core/files/read-sweep-file.ts';
import { vastRefusal } from '../../../core/files/text-size.ts';
import { refusalLine } from '../../../core/result.ts';

const refusalOf = (text: string): string | null => {
  const refusal = vastRefusal(text, 'x');
  return refusal === null ? null : refusalLine(refusal);
};

it('lets a sweep in the finest steps pass, and a sheet of blank rows', () => {
  expect(refusalOf(`f_mhz;dBmV\n${'57.01;1.5\n'.repeat(121_800)}`)).toBeNull();
  expect(refusalOf(`f_mhz;dBmV\r\n57;1\r\n${';;\r\n'.repeat(1_048_574)}`)).toBeNull();
});

it('refuses more rows, longer lines and more blank ones, with the number that is too many', () => {
  expect(refusalOf(`f;l\n${'1;2\n'.repeat(150_000)}`)).toMatch(/^x: 150001 lines are more than any sweep/);
  expect(refusalOf(`a\n${'1;'.repeat(60_000)}\n`)).toMatch(/^x, line 2: 120000 characters in one line/);
  expect(refusalOf('\n'.repeat(2_300_000))).toMatch(/2300001 lines/);
});

it('lets JSON stand in one line, up to ten million letters', () => {
  const rows = Array.from({ length: 5000 }, (_, i) => ({ frequency_mhz: 54 + i / 100, level_dbmv: 36.1 }));
  const text = JSON.stringify(rows);
  expect(text.length).toBeGreaterThan(200_000);
  const read = readSweepFile(text, 'levels.json');
  expect(read.ok && read.value.rows.length).toBe(5000);
  expect(refusalOf(`[[${'1,'.repeat(5_000_100)}1]]`)).toMatch(/^x, line 1: 10000205 characters in one line/);
  expect(readSweepFile('[['.repeat(4_000_000), 'deep.json')).toMatchObject({ ok: false, code: 'not-json' });
});

it.each([
  ['levels.csv', `frequency_mhz,level_dbmv\n${'57,1\n'.repeat(160_000)}`],
  ['filter.s1p', `# MHz S DB R 75\n${'57 -1 0\n'.repeat(160_000)}`],
])('stands before the reader of %s', (name, text) => {
  expect(readSweepFile(text, name)).toMatchObject({ ok: false, code: 'too-many' });
});
