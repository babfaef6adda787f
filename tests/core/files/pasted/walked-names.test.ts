import { expect, it } from 'vitest';
import { walkedTables } from '../../../../core/files/pasted/walked-names.ts';

const found = (...lines: string[]) => {
  const read = walkedTables(lines.join('\n'), ['frequency', 'level'], 'a.txt');
  if (read === null || !read.ok) return read;
  return read.value.tables.map(({ header, body, titles }) => [
    titles[0]?.text ?? '',
    header.cells,
    ...body.map(({ cells }) => cells),
  ]);
};

// The names and the unit TenthdBmV are those of RFC 4546 (DOCS-IF-MIB), from memory.
it('makes a row of each index and a column of each name', () => {
  expect(
    found(
      'DOCS-IF-MIB::docsIfDownChannelFrequency.3 = INTEGER: 57000000 hertz',
      'DOCS-IF-MIB::docsIfDownChannelFrequency.4 = INTEGER: 63000000 hertz',
      'DOCS-IF-MIB::docsIfDownChannelPower.4 = INTEGER: -15 TenthdBmV',
      'DOCS-IF-MIB::docsIfDownChannelPower.3 = INTEGER: 312 TenthdBmV',
    ),
  ).toEqual([
    [
      'downstream',
      ['docsIfDownChannelFrequency (Hz)', 'docsIfDownChannelPower (dBmV)'],
      ['57000000 hertz', '312 TenthdBmV'],
      ['63000000 hertz', '-15 TenthdBmV'],
    ],
  ]);
});

it('tells what is received from what is sent by their names', () => {
  expect(
    found('ds.1.freq = 603 MHz', 'ds.1.power = 1 dBmV', 'us.1.freq = 37 MHz', 'us.1.power = 44 dBmV'),
  ).toEqual([
    ['ds', ['freq', 'power'], ['603 MHz', '1 dBmV']],
    ['us', ['freq', 'power'], ['37 MHz', '44 dBmV']],
  ]);
});

it('is none where a line is something else, and refuses a name with two values', () => {
  expect(found('freq_mhz.1 = 57', 'hello')).toBeNull();
  expect(found('.1.3.6.1.2.3 = 57', '.1.3.6.1.6.3 = 36')).toBeNull();
  expect(found('freq_mhz = 57', 'level_dbmv = 36')).toBeNull();
  expect(found('freq_mhz.1 = 57', 'level_dbmv.1 = 36.1', 'level_dbmv.1 = 31')).toMatchObject({
    code: 'bad-key',
    where: 'a.txt, line 3',
  });
});
