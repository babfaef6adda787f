import { expect, it } from 'vitest';
import type { Design } from '../../../core/files/station.ts';
import { standingAgainstDesign } from '../../../core/line/standing.ts';
import { isShapeFault } from '../../../core/propose/shape-fault.ts';

const design: Design = {
  lowMhz: 100,
  lowDbmv: 36,
  highMhz: 1100,
  highDbmv: 46,
  shape: 'linear',
  toleranceDb: 1,
  flatnessDb: 2.5,
};
const frequencies = Array.from({ length: 101 }, (_, i) => 100 + 10 * i);
const standingOf = (offDb: (frequencyMhz: number) => number) => {
  const standing = standingAgainstDesign(
    frequencies.map((f) => ({ frequencyMhz: f, levelDbmv: 36 + (f - 100) / 100 + offDb(f) })),
    design,
    { keepAll: true },
  );
  if (!standing.ok) throw new Error(standing.code);
  return standing.value;
};
const dip = (f: number) => (Math.abs(f - 600) <= 30 ? -4 : 0);

// Common practice, no published source: the cases are made so that each part's verdict is plain.
it('is one when only a dip is wrong', () => {
  expect(isShapeFault(standingOf(dip))).toBe(true);
});

it('is none when everything is right, or when a level or the tilt is wrong as well', () => {
  expect(isShapeFault(standingOf(() => 0))).toBe(false);
  expect(isShapeFault(standingOf((f) => dip(f) - 2))).toBe(false);
  expect(isShapeFault(standingOf((f) => dip(f) - ((f - 100) / 1000) * 3))).toBe(false);
});
