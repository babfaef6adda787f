import { expect, it } from 'vitest';
import {
  dbmvFromWritten,
  isVoltage,
  levelUnitOf,
  levelUnitWords,
  writtenLevelUnits,
} from '../../../core/files/level-unit.ts';

// 60 dBuV = 0 dBmV by definition; 0 dBm in 75 ohm = 48.7506 dBmV, in 50 ohm 46.9897 (10 log10 75000 and 50000, by hand).
it('converts each unit to dBmV', () => {
  expect(dbmvFromWritten(5.5, 'dBmV')).toBe(5.5);
  expect(dbmvFromWritten(60, 'dBuV')).toBe(0);
  expect(dbmvFromWritten(0, 'dBm')).toBeCloseTo(48.7506, 4);
  expect(dbmvFromWritten(0, 'dBm50')).toBeCloseTo(46.9897, 4);
});

// Hranac, "dBmV: Voltage or Power, part 2": 1 mV is 0 dBmV; tenfold voltage is 20 dB, by definition of the decibel.
it('takes the logarithm of a voltage, and none of nothing', () => {
  expect(dbmvFromWritten(1, 'mV')).toBe(0);
  expect(dbmvFromWritten(10, 'mV')).toBeCloseTo(20, 12);
  expect(dbmvFromWritten(1000, 'uV')).toBe(0);
  expect(dbmvFromWritten(50, 'uV')).toBeCloseTo(-26.0206, 4);
  expect([0, -0, -1].flatMap((v) => [dbmvFromWritten(v, 'mV'), dbmvFromWritten(v, 'uV')])).toEqual(
    Array.from({ length: 6 }, () => null),
  );
});

it.each([
  ['dBmV', ['dBmV', 'DBMV', 'dbmv 75 ohm']],
  ['dBuV', ['dBµV', 'dBμV', 'dBuV', 'DBUV']],
  ['dBm', ['dBm', 'DBM', 'dBm (75 ohm)', 'dBm/75']],
  [
    'dBm50',
    ['dBm/50', 'dBm (50 ohm)', 'dBm (50 Ω)', 'dBm 50 ohm', 'dBm at 50 ohms', 'dBm @ 50 Ω', 'dBm50ohm'],
  ],
  ['mV', ['mV', 'mv', 'millivolt', 'Millivolts', 'mV rms', 'mV (75 ohm)', 'tenths of mV']],
  ['uV', ['uV', 'µV', 'μV', 'uv', 'microvolt', 'Mikrovolt', 'µV RMS']],
  [null, ['MV', 'Mv', 'UV', 'V', 'mVpp', 'mV p-p', 'µV/m', 'mV 50 ohm', 'dBmV 50 ohm', 'dB', 'constructor']],
] as const)('%s is spelled so', (unit, spellings) => {
  expect(spellings.map(levelUnitOf)).toEqual(spellings.map(() => unit));
});

it('names each in words that are read as the same unit', () => {
  expect(writtenLevelUnits.map((unit) => levelUnitOf(levelUnitWords[unit]))).toEqual(writtenLevelUnits);
  expect(writtenLevelUnits.filter(isVoltage)).toEqual(['mV', 'uV']);
});
