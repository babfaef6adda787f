import { describe, expect, it } from 'vitest';
import { decimalSign, numberWritten, writtenIn } from '../../../core/files/written-number.ts';

describe('a cell', () => {
  it.each([
    ['-3.5', { kind: 'number', digits: '-3.5', unit: '' }],
    ['+3,5 dBmV', { kind: 'number', digits: '+3,5', unit: 'dBmV' }],
    ['\u22123.5\u00A0dBµV', { kind: 'number', digits: '-3.5', unit: 'dBµV' }],
    ['.5', { kind: 'number', digits: '.5', unit: '' }],
    ['5.7E+08 Hz', { kind: 'number', digits: '5.7E+08', unit: 'Hz' }],
    ['', { kind: 'blank' }],
    ['n/a', { kind: 'blank' }],
    ['--', { kind: 'blank' }],
    ['151-324', { kind: 'words', words: '151-324' }],
    ['12:30', { kind: 'words', words: '12:30' }],
    ['0x10', { kind: 'words', words: '0x10' }],
  ])('%j', (cell, written) => {
    expect(writtenIn(cell)).toEqual(written);
  });
});

describe('the decimal sign', () => {
  const decided = (digits: readonly string[], separator: string) => {
    const sign = decimalSign(
      digits.map((one, i) => ({ digits: one, where: `row ${i}` })),
      separator,
    );
    return sign.ok ? sign.value : sign.where;
  };
  it.each<[string, readonly string[], string, string | null]>([
    ['none at all', ['57', '-3'], ';', null],
    ['a point', ['57.5'], ';', '.'],
    ['a comma', ['57,5'], '\t', ','],
    ['a comma that others prove', ['37,636', '5,5'], ';', ','],
    ['a point before three digits among commas', ['1.234'], ',', '.'],
    ['a fraction that begins with 0', ['0,234'], ';', ','],
    ['a doubtful comma', ['5', '1,234'], ';', 'row 1'],
    ['a doubtful point', ['1.234'], ';', 'row 0'],
    ['a doubtful point that a comma contradicts', ['1.234', '5,5'], ';', 'row 0'],
    ['both', ['5,5', '5.5'], ';', 'row 1'],
    ['a comma among commas', ['5.5', '5,5'], ',', 'row 1'],
    ['two marks', ['1.234,5'], ';', 'row 0'],
  ])('%s', (_what, digits, separator, expected) => {
    expect(decided(digits, separator)).toBe(expected);
  });
});

it('never gives an infinity', () => {
  expect([numberWritten('5,5'), numberWritten('-1e3'), numberWritten('1e999')]).toEqual([5.5, -1000, null]);
});

it('reads past signs that are not seen, at the ends of a cell alone', () => {
  expect(writtenIn('\u200E-8.0\u200B')).toEqual({ kind: 'number', digits: '-8.0', unit: '' });
  expect(writtenIn('1\u200B2.3').kind).toBe('words');
  expect(writtenIn("'-3.1")).toEqual({ kind: 'number', digits: '-3.1', unit: '' });
  expect(writtenIn("36'1").kind).toBe('words');
});
