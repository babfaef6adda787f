import { expect, it } from 'vitest';
import { jsonTables } from '../../../../core/files/pasted/json-tables.ts';

const found = (value: unknown) => {
  const read = jsonTables(JSON.stringify(value), ['frequency', 'level'], 'a.json');
  if (read === null || !read.ok) return read;
  return read.value.tables.map(({ header, body, titles }) => ({
    heads: header.cells,
    rows: body.map(({ cells }) => cells),
    title: titles[0]?.text,
  }));
};
const levels = { heads: ['frequency_mhz', 'level_dbmv'], rows: [['57', '36.1']] };

it('finds rows in every shape that holds them', () => {
  const row = { frequency_mhz: 57, level_dbmv: 36.1 };
  expect(found([row])).toEqual([{ ...levels, title: undefined }]);
  expect(found({ a: { b: [row] } })).toEqual([{ ...levels, title: 'a b' }]);
  expect(found([Object.keys(row), Object.values(row)])).toEqual([{ ...levels, title: undefined }]);
  expect(found({ frequency_mhz: [57], level_dbmv: [36.1] })).toEqual([{ ...levels, title: undefined }]);
  expect(found({ 3: row })).toEqual([
    { heads: ['channel', 'frequency_mhz', 'level_dbmv'], rows: [['3', '57', '36.1']], title: undefined },
  ]);
});

it('names what lies inside of a row by its keys, and reads a value with its unit as one cell', () => {
  expect(
    found([{ freq: { value: 57, unit: 'MHz' }, level_dbmv: 3, errors: { corrected: 1 }, tags: ['a', 'b'] }]),
  ).toEqual([
    {
      heads: ['freq', 'level_dbmv', 'errors corrected', 'tags'],
      rows: [['57 MHz', '3', '1', '[a, b]']],
      title: undefined,
    },
  ]);
});

it('takes no levels that nobody read, and refuses lists of unlike length', () => {
  expect(found({ target: [{ frequency_mhz: 57, level_dbmv: 36 }] })).toEqual([]);
  expect(found({ frequency_mhz: [57, 63], level_dbmv: [36.1] })).toMatchObject({
    ok: false,
    code: 'row-length',
  });
  expect(found([['frequency_mhz', 'level_dbmv'], [57]])).toMatchObject({ ok: false, code: 'row-length' });
  expect(jsonTables('57,36.1', ['level'], 'a.csv')).toBeNull();
});
