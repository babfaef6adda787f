import { expect, it } from 'vitest';
import {
  bareLevel,
  bareMhz,
  capital,
  counted,
  day,
  duration,
  lengthWords,
  level,
  levelWord,
  mhz,
  oneDecimal,
  plugIn,
  plusMinus,
  signedDb,
  signedDecimal,
  sizeDb,
  sureWords,
  temperature,
} from '../../renderer/format.ts';

const N = '\u00A0';

it('gives a level one decimal and its unit, with a real minus sign', () => {
  expect(level(43.94, 'dBmV')).toBe(`43.9${N}dBmV`);
  expect(level(-3.25, 'dBmV')).toBe(`\u22123.3${N}dBmV`);
  expect(oneDecimal(46)).toBe('46.0');
});

it('signs a deviation, and never signs what rounds to nothing', () => {
  expect(signedDecimal(0.44)).toBe('+0.4');
  expect(signedDecimal(-2.06)).toBe('\u22122.1');
  expect(signedDecimal(0.04)).toBe('0.0');
  expect(signedDecimal(-0.04)).toBe('0.0');
  expect(signedDb(-2.06)).toBe(`\u22122.1${N}dB`);
  expect(sizeDb(-2.06)).toBe(`2.1${N}dB`);
});

it('writes frequencies and plug-in values with the digits that they have', () => {
  expect(mhz(867)).toBe(`867${N}MHz`);
  expect(bareMhz(711.25)).toBe('711.25');
  expect(plugIn(8)).toBe('8');
  expect(plugIn(4.5)).toBe('4.5');
});

it('shows a temperature in either unit', () => {
  expect(temperature(-8, 'C')).toBe(`\u22128${N}°C`);
  expect(temperature(100, 'F')).toBe(`212${N}°F`);
});

it('counts, capitalises and tells time left', () => {
  expect(counted(1, 'channel', 'channels')).toBe(`1${N}channel`);
  expect(counted(136, 'channel', 'channels')).toBe(`136${N}channels`);
  expect(capital('input pad')).toBe('Input pad');
  expect(duration(3100)).toBe(`4${N}s`);
  expect(duration(125_000)).toBe(`2${N}min 05${N}s`);
  expect(duration(-5)).toBe(`0${N}s`);
});

it('tells a day as near as the reader needs it', () => {
  const at = (y: number, m: number, d: number, h = 9) => new Date(y, m, d, h, 12).toISOString();
  const now = at(2026, 10, 25, 14);
  expect(day(at(2026, 10, 25), now)).toBe('today 09:12');
  expect(day(at(2026, 2, 14), now)).toBe(`14${N}March`);
  expect(day(at(2024, 2, 14), now)).toBe(`14${N}March 2024`);
});

// 0 dBmV is 1 mV, 60 dBuV and -48.75 dBm in 75 ohm (definitions; standards.md section 5).
it('shows a level in the unit that was chosen', () => {
  expect(level(0, 'dBuV')).toBe(`60.0${N}dB\u00B5V`);
  expect(level(0, 'dBm75')).toBe(`\u221248.8${N}dBm`);
  expect(level(0, 'mV')).toBe(`1.00${N}mV`);
  expect([44, 20, 0, -26, -60].map((dbmv) => bareLevel(dbmv, 'mV'))).toEqual([
    '158',
    '10.0',
    '1.00',
    '0.0501',
    '0.00100',
  ]);
  expect(bareLevel(Number.NaN, 'dBmV')).toBe('?');
  expect(levelWord('dBm75')).toBe('dBm');
  expect(lengthWords(100, 'm')).toBe(`100${N}m`);
  expect(lengthWords(100, 'ft')).toBe(`328${N}ft`);
});

it('says how certain a verdict is, and claims neither certainty nor precision that is not there', () => {
  expect(sureWords('pass', 0.9999)).toBe('sure');
  expect(sureWords('pass', 0.972)).toBe(`97${N}% sure`);
  expect(sureWords('fail', 0.0001)).toBe('sure');
  expect(sureWords('fail', 0.03)).toBe(`97${N}% sure`);
  expect(sureWords('undecided', 0.106)).toBe(`11${N}% inside`);
  expect(sureWords('undecided', 0.8)).toBe(`80${N}% inside`);
  expect(sureWords('undecided', 0.9499)).toBe(`94${N}% inside`);
  expect(plusMinus(0.34)).toBe('\u00B10.3');
  expect(plusMinus(0.01)).toBe('\u00B10.1');
});
