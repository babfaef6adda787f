import { expect, it } from 'vitest';
import { unitsInProse } from '../../../../core/files/pasted/prose-units.ts';

const units = (...lines: string[]) => unitsInProse(lines.map((text, i) => ({ line: i + 1, text })));

it('hears units that stand by themselves', () => {
  expect(units('Levels in dBµV', 'frequency (kHz)')).toEqual({ frequency: 'kHz', level: 'dBuV', parts: 1 });
  expect(units('power in tenths of dBmV').parts).toBe(10);
});

it('hears none behind a number, and none of two', () => {
  expect(units('set to 36 dBmV at 870 MHz')).toMatchObject({ frequency: null, level: null });
  expect(units('dBmV or dBuV')).toMatchObject({ level: null });
});
