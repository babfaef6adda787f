import { describe, expect, it } from 'vitest';
import {
  fromRatedC,
  normalBasis,
  normalRows,
  yearsBetween,
  yearsLater,
} from '../../../core/drift/normalize.ts';
import type { Design } from '../../../core/files/station.ts';
import { START_MS, sweep, YEAR_MS } from './sweeps.ts';

const design: Design = {
  lowMhz: 217.5,
  lowDbmv: 36,
  highMhz: 870,
  highDbmv: 46,
  shape: 'linear',
  toleranceDb: 1,
  flatnessDb: 2.5,
};
/** 22 dB (1 + 0.002 (T - 20)) at 870 MHz and no control: contract, section 3. */
const weather = (frequencyMhz: number, ambientC: number) =>
  -22 * Math.sqrt(frequencyMhz / 870) * 0.002 * (ambientC - 20);

describe('the way', () => {
  const spread = [0, 4, 8, 12, 16, 20].map((ambientC, n) => sweep(n, { ambientC }));
  it('is what the span explains, where the station file tells it', () => {
    expect(normalBasis(spread, weather)).toBe('span');
  });
  it('is a regression from six sweeps over ten degrees on, where it does not', () => {
    expect(normalBasis(spread, null)).toBe('regression');
    expect(normalBasis(spread.slice(1), null)).toBe('none');
    expect(
      normalBasis(
        spread.map((one) => ({ ...one, ambientC: 18 })),
        null,
      ),
    ).toBe('none');
  });
  it('is none where nobody wrote down a temperature', () => {
    expect(normalBasis([sweep(1, { ambientC: null })], weather)).toBe('none');
  });
});

describe('the rows', () => {
  const points = [
    sweep(1, { ambientC: 30, levelDb: -0.44, tiltDb: -0.22 }),
    sweep(2, { ambientC: null }),
    sweep(3),
  ];
  it('have what the span explains taken out: ten degrees of 22 dB are 0.44 dB', () => {
    const level = normalRows(points, 'level', design, weather, 'span');
    expect(level.map(({ place }) => place)).toEqual([0, 2]);
    expect(level[0]?.valueDb).toBeCloseTo(0, 12);
    expect(level[0]?.rawDb).toBe(-0.44);
    expect(level[0]?.years).toBeCloseTo(-2, 9);
    expect(normalRows(points, 'tilt', design, weather, 'span')[0]?.valueDb).toBeCloseTo(0, 12);
  });
  it('leave flatness alone: a cable has no bumps', () => {
    expect(normalRows(points, 'flatness', design, weather, 'span')[0]?.valueDb).toBe(1);
  });
  it('are as read, and all of them, where nothing is taken out', () => {
    const level = normalRows(points, 'level', design, weather, 'none');
    expect(level.map(({ valueDb }) => valueDb)).toEqual([-0.44, 0, 0]);
  });
  it('are as read for a regression, which takes the temperature out itself', () => {
    expect(normalRows(points, 'level', design, null, 'regression')[0]?.valueDb).toBe(-0.44);
  });
});

it('counts years of 365.25 days, both ways', () => {
  expect(yearsBetween(START_MS, START_MS + 2 * YEAR_MS)).toBe(2);
  expect(yearsLater(START_MS, 2)).toBe(START_MS + 2 * YEAR_MS);
});
it('takes an unknown temperature for the rated one', () => {
  expect(fromRatedC(25)).toBe(5);
  expect(fromRatedC(null)).toBe(0);
});
