import { expect, it } from 'vitest';
import { saysUnitsOnly, withoutFooter } from '../../../../core/files/pasted/footer-units.ts';

it('knows a line that says nothing but units', () => {
  for (const line of [
    'Levels in dBmV, frequencies in MHz, SNR in dB',
    'All levels dBmV; all frequencies MHz.',
    '* level in dBuV, frequency in MHz',
    'Units: MHz, dBmV',
    '(Freq: kHz, Level: dBmV)',
    'Pegel in dBµV, Frequenzen in MHz',
    'Levels are given in dBmV at 75 ohm',
  ])
    expect([line, saysUnitsOnly(line)]).toEqual([line, true]);
});

it('is none where a word says anything else', () => {
  for (const line of [
    'Levels in dBmV or dBuV',
    'Levels in dB',
    'Levels are not in dBmV',
    'Upstream levels are in dBmV',
    'Limit: -15 to 15 dBmV',
    'Target level 0 dBmV',
    'Noise in dBmV, frequencies in MHz',
    'Frequencies in dBmV',
    '',
  ])
    expect([line, saysUnitsOnly(line)]).toEqual([line, false]);
});

it('takes such lines from the end alone, and leaves every other on its line', () => {
  expect(withoutFooter('Freq,Level\n57,36\n\nLevels in dBmV\n')).toEqual({
    text: 'Freq,Level\n57,36\n\n\n',
    footers: [{ line: 4, text: 'Levels in dBmV' }],
  });
  const above = 'Levels in dBmV\nFreq,Level\n57,36\n';
  expect(withoutFooter(above)).toEqual({ text: above, footers: [] });
  const none = 'Freq in MHz\nLevels in dBmV';
  expect(withoutFooter(none)).toEqual({ text: none, footers: [] });
});
