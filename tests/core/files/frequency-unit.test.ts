import { expect, it } from 'vitest';
import { frequencyUnitOf, mhzFromWritten, unitOfBare } from '../../../core/files/frequency-unit.ts';

it('converts with SI prefixes', () => {
  expect(mhzFromWritten(57e6, 'Hz')).toBe(57);
  expect(mhzFromWritten(57_250, 'kHz')).toBe(57.25);
  expect(mhzFromWritten(57, 'MHz')).toBe(57);
  expect(mhzFromWritten(0.057, 'GHz')).toBe(57);
});

it('judges bare numbers only where one unit fits them all', () => {
  expect(unitOfBare([57, 867])).toBe('MHz');
  expect(unitOfBare([57_000, 867_000])).toBe('kHz');
  expect(unitOfBare([57e6, 867e6])).toBe('Hz');
  expect(unitOfBare([1100, 2200])).toBeNull();
  expect(unitOfBare([1_100_000, 2_200_000])).toBeNull();
  expect(unitOfBare([0.057, 0.867])).toBeNull();
  expect(unitOfBare([57, 57e6])).toBeNull();
  expect(unitOfBare([])).toBeNull();
});

it('knows the spellings', () => {
  expect(['mhz', 'HZ', 'kHz', 'GHz', 'm', 'toString'].map(frequencyUnitOf)).toEqual([
    'MHz',
    'Hz',
    'kHz',
    'GHz',
    null,
    null,
  ]);
});
