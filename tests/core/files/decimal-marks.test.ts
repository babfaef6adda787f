import { expect, it } from 'vitest';
import { marksOf, plainDigits } from '../../../core/files/decimal-marks.ts';

const placed = (digits: readonly string[]) => digits.map((one, i) => ({ digits: one, where: `row ${i}` }));
const marks = (digits: readonly string[], separator = ';', beside = {}) => {
  const decided = marksOf(placed(digits), separator, beside);
  return decided.ok ? digits.map((one) => Number(plainDigits(one, decided.value))) : decided.where;
};

// What a mark means is common practice: two marks three digits apart part thousands, another number of digits is a fraction.
it.each<[string, readonly string[], readonly number[] | string]>([
  ['groups of three', ['57,000,000', '1,234'], [57_000_000, 1234]],
  ['groups of three and a fraction', ['1.234.567,5', '3,25'], [1234567.5, 3.25]],
  ['a group and a fraction', ['1,234.5'], [1234.5]],
  ['a fraction that proves the mark', ['1,5', '1,234'], [1.5, 1.234]],
  ['a thousand or a fraction', ['5', '1,234'], 'row 1'],
  ['odd groups', ['5700.00.000'], 'row 0'],
  ['groups that change their mark', ['1.234,567.5'], 'row 0'],
  ['one mark for both', ['57,000,000', '1,5'], 'row 1'],
  ['two signs for a fraction', ['1,5', '1.5'], 'row 1'],
])('%s', (_what, digits, expected) => {
  expect(marks(digits)).toEqual(expected);
});

it('takes from beside what the column does not show', () => {
  expect(marks(['1,234'], ';', { elsewhere: ',' })).toEqual([1.234]);
  expect(marks(['1,234'], ';', { elsewhere: '.' })).toBe('row 0');
  const isTooLarge = (whole: number) => whole > 3000;
  expect(marks(['57.125'], '\t', { isTooLarge })).toEqual([57.125]);
  expect(marks(['1.234'], '\t', { isTooLarge })).toBe('row 0');
  // A comma is the usual mark for thousands: size alone decides nothing.
  expect(marks(['57,125'], '\t', { isTooLarge })).toBe('row 0');
});

it('never takes a comma for a fraction where commas part the cells', () => {
  expect(marks(['3,5'], ',')).toBe('row 0');
  expect(marks(['1,234'], ',', { elsewhere: ',' })).toBe('row 0');
  expect(marks(['57.125'], ',')).toEqual([57.125]);
});
