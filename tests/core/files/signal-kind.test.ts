import { expect, it } from 'vitest';
import { kindOf, kindOfModulation } from '../../../core/files/signal-kind.ts';

it('knows the four kinds of the contract', () => {
  expect(['analog', 'QAM', 'ofdm', 'cw', 'radio', ''].map(kindOf)).toEqual([
    'analog',
    'qam',
    'ofdm',
    'cw',
    null,
    null,
  ]);
});

it('knows the kind of a modulation, and says nothing where it does not', () => {
  const words = [
    '256QAM',
    'QAM256',
    '64 QAM',
    'QAM-64',
    'qam',
    'OFDM',
    'OFDMA',
    'Other',
    'Unknown',
    '',
    'toString',
  ];
  expect(words.map(kindOfModulation)).toEqual([
    ...['qam', 'qam', 'qam', 'qam', 'qam', 'ofdm', 'ofdm'],
    ...[null, null, null, null],
  ]);
});
