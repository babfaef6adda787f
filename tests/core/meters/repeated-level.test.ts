import { expect, it } from 'vitest';
import { isDoubtful, isSameReading, meanLevel, middleReading } from '../../../core/meters/repeated-level.ts';

// Worked by hand.
it.each([
  [[10], 10],
  [[10, 10.4], 10.2],
  [[10, null, 11], 10.5],
  [[10, null], null],
  [[null], null],
])('means of %j is %s', (readings, mean) => {
  const found = meanLevel(readings);
  expect(found === null ? null : Number(found.toFixed(9))).toBe(mean);
});
it('throws at no readings', () => expect(() => meanLevel([])).toThrow(RangeError));

it('doubts the first, the missing and the far', () => {
  expect(isDoubtful(12, undefined)).toBe(true);
  expect(isDoubtful(null, 12)).toBe(true);
  expect(isDoubtful(20.1, 12)).toBe(true);
  expect(isDoubtful(3.9, 12)).toBe(true);
  expect(isDoubtful(6, 12)).toBe(false);
  expect(isDoubtful(12, null)).toBe(false);
});
it('takes two for the same within a decibel', () => {
  expect(isSameReading(12, 13)).toBe(true);
  expect(isSameReading(12, 13.01)).toBe(false);
  expect(isSameReading(null, null)).toBe(true);
  expect(isSameReading(null, -90)).toBe(false);
});
it('takes the middle of three, whatever their order', () => {
  expect(middleReading([12, -12, 12.3])).toBe(12);
  expect(middleReading([null, 12, 12.2])).toBe(12);
  expect(middleReading([12, null, null])).toBeNull();
});
