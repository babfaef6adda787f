import { afterEach, describe, expect, it } from 'vitest';
import {
  asWritten,
  bareMhz,
  clock,
  decimals,
  level,
  plugIn,
  plusMinus,
  signedDb,
  sureWords,
  whole,
  writeAs,
  writtenAs,
} from '../../renderer/format.ts';
import { mannerOf, usualManner } from '../../renderer/manner.ts';
import { typedNumber } from '../../renderer/typed-number.ts';

const N = '\u00A0';
const british = mannerOf('en-GB');
const german = mannerOf('de-DE');
afterEach(() => writeAs(usualManner));

describe('the manner of a system', () => {
  // What these countries write is Unicode's CLDR, which Intl carries.
  it.each([
    ['en-GB', { decimal: '.', hours: 24, locale: 'en-GB' }],
    ['de-DE', { decimal: ',', hours: 24, locale: 'en-DE' }],
    ['de-CH', { decimal: '.', hours: 24, locale: 'en-GB' }],
    ['en-US', { decimal: '.', hours: 12, locale: 'en-US' }],
    ['fr-FR', { decimal: ',', hours: 24, locale: 'en-DE' }],
    ['not a locale', usualManner],
  ])('of %s', (locale, manner) => expect(mannerOf(locale)).toEqual(manner));

  it('is one that the libraries write with the same decimal sign', () => {
    for (const locale of ['en-GB', 'de-DE', 'en-US', 'de-CH', 'sv-SE', 'pt-BR']) {
      const { decimal, locale: ours } = mannerOf(locale);
      expect(new Intl.NumberFormat(ours).format(1.5), locale).toBe(`1${decimal}5`);
    }
  });
});

describe('what is written', () => {
  it('has a comma and 24 hours in German, and a point in British English', () => {
    const nine = new Date(2026, 2, 14, 21, 5).toISOString();
    writeAs(german);
    expect(writtenAs()).toEqual(german);
    expect(level(-3.25, 'dBmV')).toBe(`\u22123,3${N}dBmV`);
    expect(signedDb(0.44)).toBe(`+0,4${N}dB`);
    expect(signedDb(-0.04)).toBe(`0,0${N}dB`);
    expect([bareMhz(711.25), plugIn(4.5), plusMinus(0.34), decimals(0.1, 2)]).toEqual([
      '711,25',
      '4,5',
      '\u00B10,3',
      '0,10',
    ]);
    expect(sureWords('pass', 0.972)).toBe(`97${N}% sure`);
    expect(asWritten('On design: worst channel 0.4 dB.')).toBe('On design: worst channel 0,4 dB.');
    expect(clock(nine)).toBe('21:05');
    expect([whole(7), whole(999), whole(10_000), whole(1_234_567)]).toEqual([
      '7',
      '999',
      '10\u202F000',
      '1\u202F234\u202F567',
    ]);
    writeAs(british);
    expect(level(-3.25, 'dBmV')).toBe(`\u22123.3${N}dBmV`);
    expect(clock(nine)).toBe('21:05');
    writeAs(mannerOf('en-US'));
    expect(clock(nine)).toBe(`9:05${N}pm`);
    expect(clock(new Date(2026, 2, 14, 0, 7).toISOString())).toBe(`12:07${N}am`);
  });
});

describe('what is typed', () => {
  it.each([
    ['31', 31],
    ['44.1', 44.1],
    ['44,1', 44.1],
    [' \u22123,5 ', -3.5],
    ['+0,25', 0.25],
    ['.5', 0.5],
    ['0,125', 0.125],
    ['0.125', 0.125],
    ['711,25', 711.25],
    ['1\u202F218', 1218],
    ['1.234,5', 1234.5],
    ['1,234.5', 1234.5],
    ['1.234.567', 1_234_567],
  ])('%j is the same number with either manner', (text, value) => {
    for (const manner of [british, german])
      expect(typedNumber(text, manner), manner.locale).toEqual({ kind: 'number', value });
  });

  it('takes the sign of the system for what it is, and does not guess at the other', () => {
    expect(typedNumber('1.218', british)).toEqual({ kind: 'number', value: 1.218 });
    expect(typedNumber('1,218', german)).toEqual({ kind: 'number', value: 1.218 });
    expect(typedNumber('1,218', british)).toEqual({
      kind: 'unclear',
      help: '1,218 can be read in two ways: type 1218, or 1.218.',
    });
    expect(typedNumber('-1.218', german)).toEqual({
      kind: 'unclear',
      help: '-1.218 can be read in two ways: type -1218, or -1,218.',
    });
  });

  it.each(['abc', '1-2', '1..2', '1,2,3', '12 dB', '1e3', '-', '.', '12.34.567', '\u221E'])(
    'refuses %j with a word',
    (text) => {
      expect(typedNumber(text, british).kind).toBe('unclear');
      expect(typedNumber(text, german).kind).toBe('unclear');
    },
  );

  it.each(['', ' ', '\u00A0'])('takes %j for the empty field', (text) =>
    expect(typedNumber(text, german)).toEqual({ kind: 'empty' }),
  );
});
