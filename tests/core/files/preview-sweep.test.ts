import { expect, it } from 'vitest';
import { previewSweep } from '../../../core/files/preview-sweep.ts';
import { readSweepCsv } from '../../../core/files/sweep-csv.ts';

const rows = Array.from(
  { length: 12 },
  (_, i) => `${57 + 6 * i} MHz\t${i} dBmV\t${i === 2 ? 'Not Locked' : 'Locked'}\n`,
).join('');

it('says what was understood, shows ten rows, and what is left out and why', () => {
  const text = `Downstream\nFrequency\tPower\tLock Status\n${rows}\t3 dBmV\tLocked\nThat is all\n`;
  const preview = previewSweep(text, 'paste');
  expect(preview).toMatchObject({
    refusal: null,
    separator: 'tab',
    frequencyUnit: 'in the cells',
    levelUnit: 'in the cells',
    rowCount: 13,
    readingCount: 11,
    lowMhz: 57,
    highMhz: 123,
    left: [
      { line: 5, reason: 'not locked' },
      { line: 15, reason: 'no frequency' },
    ],
    rest: [{ line: 16, text: 'That is all' }],
    asks: null,
  });
  expect(preview.columns).toEqual([
    { role: 'frequency', heading: 'Frequency' },
    { role: 'level', heading: 'Power' },
    { role: 'lock', heading: 'Lock Status' },
  ]);
  const read = readSweepCsv(text, 'paste');
  expect(preview.rows).toEqual(read.ok && read.value.rows.slice(0, 10));
});

it('asks for what would make it certain, and shows what is known all the same', () => {
  const bare = 'freq  pow\n57000000  8\n63000000  8\n';
  expect(previewSweep(bare, 'p')).toMatchObject({
    refusal: { code: 'no-unit' },
    asks: 'level-unit',
    separator: 'blanks',
  });
  expect(previewSweep(bare, 'p', { levelUnit: 'dBmV' })).toMatchObject({ refusal: null, readingCount: 2 });
  const two = `Plant A\nf_mhz\tdBmV\n570\t1\n\nPlant B\nf_mhz\tdBmV\n570\t40\n`;
  const preview = previewSweep(two, 'p');
  expect([preview.asks, preview.tables.map(({ number, title }) => [number, title])]).toEqual([
    'table',
    [
      [1, 'Plant A'],
      [2, 'Plant B'],
    ],
  ]);
  expect(previewSweep(two, 'p', { table: 2 })).toMatchObject({ refusal: null, lowMhz: 570, asks: null });
  expect(previewSweep('frequency\tdBmV\n1200\t1\n2500\t1\n', 'p').asks).toBe('frequency-unit');
});

it('takes a response for no levels, in words', () => {
  expect(previewSweep('# MHz S DB R 75\n57 0 0 -3 0 0 0 0 0\n', 'x.s2p').refusal?.help).toMatch(
    /response, not levels/,
  );
});
