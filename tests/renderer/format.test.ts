import { expect, it } from 'vitest';
import {
  bareMhz,
  capital,
  counted,
  day,
  duration,
  level,
  mhz,
  oneDecimal,
  plugIn,
  signedDb,
  signedDecimal,
  sizeDb,
  temperature,
} from '../../renderer/format.ts';

const N = '\u00A0';

it('gives a level one decimal and its unit, with a real minus sign', () => {
  expect(level(43.94)).toBe(`43.9${N}dBmV`);
  expect(level(-3.25)).toBe(`\u22123.3${N}dBmV`);
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
