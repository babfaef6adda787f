import { describe, expect, it } from 'vitest';
import { compareSweeps } from '../../../core/drift/compare-sweeps.ts';
import type { Design } from '../../../core/files/station.ts';
import type { LevelRow } from '../../../core/line/level-row.ts';

const design: Design = {
  lowMhz: 100,
  lowDbmv: 36,
  highMhz: 500,
  highDbmv: 46,
  shape: 'linear',
  toleranceDb: 1,
  flatnessDb: 2.5,
};
const rows = (levels: Readonly<Record<number, number | null>>): readonly LevelRow[] =>
  Object.entries(levels).map(([mhz, levelDbmv]) => ({ frequencyMhz: Number(mhz), levelDbmv }));
const sweep = (levels: Readonly<Record<number, number | null>>, ambientC: number | null = 20) => ({
  rows: rows(levels),
  ambientC,
});
const compared = (...args: Parameters<typeof compareSweeps>) => {
  const result = compareSweeps(...args);
  if (!result.ok) throw new Error(result.code);
  return result.value;
};

describe('two sweeps', () => {
  const earlier = sweep({ 100: 36, 300: 41, 500: 46, 600: null });
  const later = sweep({ 500: 44, 300: 40, 100: 36, 700: 50 });
  const comparison = compared(earlier, later, design, null);
  it('are subtracted channel by channel, later less earlier', () => {
    expect(comparison.rows.map(({ frequencyMhz, differenceDb }) => [frequencyMhz, differenceDb])).toEqual([
      [100, 0],
      [300, -1],
      [500, -2],
      [600, null],
      [700, null],
    ]);
    expect(comparison.comparedCount).toBe(3);
  });
  // By hand: 0, -1, -2 over the whole design band is a mean of -1 and a tilt of -2.
  it('have a mean, a tilt and a worst channel', () => {
    expect(comparison.meanDb).toBeCloseTo(-1, 12);
    expect(comparison.tiltDb).toBeCloseTo(-2, 12);
    expect(comparison.worst).toEqual({ frequencyMhz: 500, differenceDb: -2 });
  });
});

it('says what the temperatures explain where both are known', () => {
  const weather = (frequencyMhz: number, ambientC: number) => (-frequencyMhz / 1000) * (ambientC - 20);
  const warm = compared(sweep({ 100: 36, 500: 46 }, 20), sweep({ 100: 36, 500: 46 }, 30), design, weather);
  expect(warm.rows.map(({ weatherDb }) => weatherDb)).toEqual([-1, -5]);
  const unknown = compared(sweep({ 100: 36 }, null), sweep({ 100: 36 }, 30), design, weather);
  expect(unknown.rows[0]?.weatherDb).toBeNull();
});

it('has no tilt to tell from one channel, and needs no design', () => {
  expect(compared(sweep({ 100: 36 }), sweep({ 100: 37 }), null, null)).toMatchObject({
    meanDb: 1,
    tiltDb: 0,
  });
});

it('does not subtract what was not locked', () => {
  const unlocked = { rows: [{ frequencyMhz: 100, levelDbmv: 3, unlocked: true }], ambientC: 20 };
  expect(compareSweeps(unlocked, sweep({ 100: 36 }), design, null)).toMatchObject({
    ok: false,
    code: 'nothing-in-common',
  });
});
