import { expect, it } from 'vitest';
import { headerWord } from '../../../core/files/header-words.ts';

// The wordings are common practice, no published source.
it.each([
  ['frequency_mhz', 'frequency', 'MHz', null],
  ['Freq (kHz)', 'frequency', 'kHz', null],
  ['Center Frequency [Hz]', 'frequency', 'Hz', null],
  ['MHz', 'frequency', 'MHz', null],
  ['f', 'frequency', null, null],
  ['Power (dBmV)', 'level', null, 'dBmV'],
  ['Receive Level dBµV', 'level', null, 'dBuV'],
  ['Amplitude', 'level', null, null],
  ['SNR/MER', 'mer', null, null],
  ['Modulation', 'modulation', null, null],
  ['Channel ID', 'label', null, null],
  ['Lock Status', 'lock', null, null],
  ['Corrected', null, null, null],
  ['constructor', null, null, null],
  ['', null, null, null],
])('%j names %s', (header, role, frequencyUnit, levelUnit) => {
  expect(headerWord(header)).toMatchObject({ role, frequencyUnit, levelUnit });
});

it('sees an impedance and a bare dB', () => {
  expect(headerWord('level (dBm, 50 ohm)').impedanceOhm).toBe(50);
  expect(headerWord('level_dbmv').impedanceOhm).toBeNull();
  expect(headerWord('level_db').bareDb).toBe(true);
});
