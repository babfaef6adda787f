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
  ['Level (mV)', 'level', null, 'mV'],
  ['level_uv', 'level', null, 'uV'],
  ['Pegel in Mikrovolt', 'level', null, 'uV'],
  ['Level (mV RMS)', 'level', null, 'mV'],
  ['mV', 'level', null, 'mV'],
  ['Level dB mV', 'level', null, 'dBmV'],
  ['Level (dB, mV)', 'level', null, null],
  ['Level (MV)', null, null, null],
  ['Level (\u00B5V/m)', null, null, 'uV'],
  ['Level (mV p-p)', null, null, 'mV'],
  ['Hum (mV)', null, null, 'mV'],
  ['level_dbm50', 'level', null, 'dBm50'],
  ['Level (dBm/50)', 'level', null, 'dBm50'],
  ['Level (dBm 50ohm)', 'level', null, 'dBm50'],
  ['Level (dBm, 75 ohm)', 'level', null, 'dBm'],
  ['Channel 50 level (dBm)', 'level', null, 'dBm'],
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

it('takes a voltage for a level only where its words leave nothing else', () => {
  const said = ['Voltage (mV)', 'AC (mV)', 'Test point (mV)', 'RSL (dBmV)'].map(headerWord);
  expect(said.map(({ byUnit }) => byUnit)).toEqual(['level', null, null, 'level']);
  expect(said.map(({ mayBeLevel }) => mayBeLevel)).toEqual([false, false, false, true]);
});
