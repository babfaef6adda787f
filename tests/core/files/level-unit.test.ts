import { expect, it } from 'vitest';
import { dbmvFromWritten, levelUnitOf } from '../../../core/files/level-unit.ts';

// 60 dBuV = 0 dBmV by definition; 0 dBm in 75 ohm = 48.7506 dBmV (10 log10 75000, by hand).
it('converts each unit to dBmV', () => {
  expect(dbmvFromWritten(5.5, 'dBmV')).toBe(5.5);
  expect(dbmvFromWritten(60, 'dBuV')).toBe(0);
  expect(dbmvFromWritten(0, 'dBm')).toBeCloseTo(48.7506, 4);
});

it('knows the spellings', () => {
  expect(['dBmV', 'DBMV', 'dBµV', 'dBμV', 'dBuV', 'dBm', 'dB', 'constructor'].map(levelUnitOf)).toEqual([
    'dBmV',
    'dBmV',
    'dBuV',
    'dBuV',
    'dBuV',
    'dBm',
    null,
    null,
  ]);
});
