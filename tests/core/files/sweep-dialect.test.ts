import { describe, expect, it } from 'vitest';
import { readTable } from '../../../core/files/sweep-dialect.ts';

describe('a table', () => {
  it.each([
    ['frequency_mhz,level_dbmv\n1,2\n', ','],
    ['Frequency, MHz;Level, dBmV\n1;2\n', ';'],
    ['frequency_mhz\tlevel_dbmv\n1\t2\n', '\t'],
  ])('%j is parted by %j', (text, separator) => {
    expect(readTable(text, 'x', ['frequency', 'level'])).toMatchObject({ ok: true, value: { separator } });
  });

  it('keeps the first of two columns that do not count, and names where they are', () => {
    const table = readTable('Channel,Channel ID,f_mhz,dBmV\n1,2,3,4\n', 'x', ['frequency', 'level']);
    expect(table).toMatchObject({
      ok: true,
      value: { columns: { label: { index: 0 }, frequency: { index: 2 }, level: { index: 3 } } },
    });
  });

  it('needs only what it is asked for', () => {
    expect(readTable('frequency_mhz\n57\n', 'x', ['frequency']).ok).toBe(true);
    expect(readTable('frequency_mhz\n57\n', 'x', ['frequency', 'level'])).toMatchObject({
      code: 'no-header',
    });
  });

  it('refuses a header that two separators part', () => {
    const text = 'frequency_mhz,level_dbmv;frequency_mhz,level_dbmv;x\n';
    expect(readTable(text, 'x', ['frequency', 'level']).ok).toBe(false);
  });
});
