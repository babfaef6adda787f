import { expect, it } from 'vitest';
import { modulationsOf } from '../../../core/files/modulations-of.ts';

const own = 'frequency_mhz,level_dbmv,modulation\n57,1,256-QAM\n,1,64-QAM\n63,2,\n69,3,OFDM\n';

it('gives each reading the word of its row', () => {
  expect(modulationsOf(own, 'x.csv', [57, 63, 69])).toEqual(['256-QAM', undefined, 'OFDM']);
});

it('puts no word to rows that are others than those which were kept', () => {
  expect(modulationsOf(own, 'x.csv', [57, 63])).toBeNull();
  expect(modulationsOf(own, 'x.csv', [57, 63, 70])).toBeNull();
  expect(modulationsOf('no table', 'x.csv', [57])).toBeNull();
});

it.each([
  ['a unit of level', 'freq_mhz;power;modulation\n57;61;64-QAM\n63;62;256-QAM\n', [57, 63]],
  ['a unit of frequency', 'freq;dBmV;modulation\n1200;1;64-QAM\n2500;2;256-QAM\n', [1.2, 2.5]],
  ['both units', 'freq;power;modulation\n1200;1;64-QAM\n2500;2;256-QAM\n', [1200, 2500]],
  [
    'a table',
    'Here\nf_mhz;dBmV;modulation\n57;1;QPSK\n63;1;QPSK\n\nThere\nf_mhz;dBmV;modulation\n63;1;64-QAM\n69;1;256-QAM\n',
    [63, 69],
  ],
  [
    'a table and a unit',
    'Here\nf_mhz;power;modulation\n57;1;QPSK\n63;1;QPSK\n\nThere\nf_mhz;power;modulation\n63;1;64-QAM\n69;1;256-QAM\n',
    [63, 69],
  ],
])('finds again what a person said: %s', (_what, text, frequenciesMhz) => {
  expect(modulationsOf(text, 'x.txt', frequenciesMhz)).toEqual(['64-QAM', '256-QAM']);
});
