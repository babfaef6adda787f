import { expect, it } from 'vitest';
import { saysIn50Ohm, unitsInProse } from '../../../../core/files/pasted/prose-units.ts';

const units = (...lines: string[]) => unitsInProse(lines.map((text, i) => ({ line: i + 1, text })));

it('hears units that stand by themselves', () => {
  expect(units('Levels in dBµV', 'frequency (kHz)')).toEqual({
    frequency: 'kHz',
    level: 'dBuV',
    isIn50Ohm: false,
    parts: 1,
  });
  expect(units('power in tenths of dBmV').parts).toBe(10);
});

it('hears none behind a number, and none of two', () => {
  expect(units('set to 36 dBmV at 870 MHz')).toMatchObject({ frequency: null, level: null });
  expect(units('dBmV or dBuV')).toMatchObject({ level: null });
});

it('hears a voltage, and none that is a peak, a field or what decibels refer to', () => {
  expect(units('Levels in mV').level).toBe('mV');
  expect(units('levels in microvolts').level).toBe('uV');
  const others = ['mV peak', 'mVpp', 'MV', 'µV/m', 'dB mV', 'dB(µV)', 'decibel millivolts', 'hum 3 mV'];
  expect(others.map((text) => units(text).level).filter((level) => level === 'mV' || level === 'uV')).toEqual(
    [],
  );
});

it('hears in which impedance dBm is', () => {
  expect(units('Levels in dBm at 50 ohm')).toMatchObject({ level: 'dBm50', isIn50Ohm: true });
  expect(units('Levels in dBm', 'input: 50 Ω')).toMatchObject({ level: 'dBm50' });
  expect(units('Levels in dBm at 75 ohm')).toMatchObject({ level: 'dBm', isIn50Ohm: false });
  expect(units('Levels in dBm', '50 ohm analyser behind a 75 ohm pad')).toMatchObject({ level: null });
});

it.each([
  ['measured in 50 ohm', true],
  ['Impedance: 50', true],
  ['Input impedance (ohm) 50', true],
  ['50 \u03a9', true],
  ['150 ohm', false],
  ['impedance 500', false],
  ['channel 50', false],
  ['75 ohm', false],
])('%s: %s', (text, is) => {
  expect(saysIn50Ohm([{ line: 1, text }])).toBe(is);
});
