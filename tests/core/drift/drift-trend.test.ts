import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drifts, driftTrend, SURE_BELOW, worseningPerYearDb } from '../../../core/drift/drift-trend.ts';
import type { NormalRow } from '../../../core/drift/normalize.ts';
import norris from '../../data/published/nist-strd-norris.json' with { type: 'json' };

const row = (years: number, valueDb: number, ambientC = 20, place = 0): NormalRow => ({
  place,
  years,
  ambientC,
  rawDb: valueDb,
  valueDb,
});
const free = { fromDb: null, toDb: null };
const within1 = { fromDb: -1, toDb: 1 };

// NIST Statistical Reference Datasets, "Norris": certified slope and its certified standard deviation.
it('gives the certified slope and standard error of NIST Norris', () => {
  const rows = norris.x.map((x, i) => row(x, norris.y[i] ?? 0));
  const trend = driftTrend(rows, 'none', free);
  expect(Math.abs((trend?.perYearDb ?? 0) / norris.slope - 1)).toBeLessThan(1e-11);
  expect(Math.abs((trend?.errorPerYearDb ?? 0) / 0.000429796848199937 - 1)).toBeLessThan(1e-9);
  expect(trend?.freedom).toBe(34);
});

describe('a station that falls half a dB a year', () => {
  const rows = [-3, -2, -1, 0].map((years, place) => row(years, -0.1 - 0.5 * (years + 3), 20, place));
  const trend = driftTrend(rows, 'span', within1);
  it('is said to', () => {
    expect(trend?.perYearDb).toBeCloseTo(-0.5, 9);
    expect(trend?.isSure).toBe(true);
    expect(trend?.chance).toBeLessThan(SURE_BELOW);
  });
  it('is already beyond the tolerance, at -1.6 dB', () => {
    expect(trend?.line.valueDb).toBeCloseTo(-1.6, 9);
    expect(trend?.leaves.latestYears).toBe(0);
  });
  // Widrow 1956: rounding to q leaves q / sqrt(12); the slope's error is that over sqrt(sum (t - mean)^2) = sqrt(5).
  it('is no surer than readings in tenths allow', () => {
    expect(trend?.errorPerYearDb).toBeCloseTo(0.1 / Math.sqrt(12) / Math.sqrt(5), 12);
  });
});

it('takes the temperature out by regression: 0.05 dB a degree, no drift', () => {
  const temperatures = [3, 18, 9, 27, -4, 14, 22];
  const rows = temperatures.map((ambientC, i) => row(i - 6, 0.2 - 0.05 * (ambientC - 20), ambientC, i));
  const trend = driftTrend(rows, 'regression', within1);
  expect(trend?.perDegreeDb).toBeCloseTo(-0.05, 9);
  expect(trend?.perYearDb).toBeCloseTo(0, 9);
  expect(trend?.isSure).toBe(false);
  for (const { valueDb } of trend?.values ?? []) expect(valueDb).toBeCloseTo(0.2, 9);
});

it('calls nothing a drift that is less than a tenth of a dB a year, however sure', () => {
  const rows = Array.from({ length: 12 }, (_, i) => row(i - 11, 0.08 * i, 20, i));
  const trend = driftTrend(rows, 'none', free);
  expect(trend?.chance).toBeLessThan(1e-6);
  expect(trend?.isSure).toBe(false);
});

it('has none below three sweeps, or where all were read at once, or temperature follows time', () => {
  expect(driftTrend([row(-1, 0), row(0, 1)], 'none', free)).toBeNull();
  expect(driftTrend([row(0, 0), row(0, 1), row(0, 2)], 'none', free)).toBeNull();
  const together = Array.from({ length: 6 }, (_, i) => row(i, i, 20 + i));
  expect(driftTrend(together, 'regression', free)).toBeNull();
});
it('refuses a figure that is no number', () => {
  expect(() => driftTrend([row(0, Number.NaN)], 'none', free)).toThrow(RangeError);
});

it('is finite for any sweeps, and its 95 % interval lies around its slope', () => {
  const value = fc.double({ min: -40, max: 40, noNaN: true });
  const some = fc.array(fc.tuple(value, value), { minLength: 3, maxLength: 12 });
  fc.assert(
    fc.property(some, (pairs) => {
      const trend = driftTrend(
        pairs.map(([years, valueDb], place) => row(years, valueDb, 20, place)),
        'none',
        within1,
      );
      if (trend === null) return;
      for (const number of [trend.perYearDb, trend.errorPerYearDb, trend.chance, trend.line.valueVariance])
        expect(Number.isFinite(number)).toBe(true);
      expect(trend.fromPerYearDb).toBeLessThanOrEqual(trend.perYearDb);
      expect(trend.toPerYearDb).toBeGreaterThanOrEqual(trend.perYearDb);
      const { earliestYears, latestYears } = trend.leaves;
      if (latestYears !== null) expect(earliestYears ?? Number.NaN).toBeLessThanOrEqual(latestYears);
    }),
  );
});

describe('what gets worse', () => {
  const slope = { fromPerYearDb: -0.9, toPerYearDb: -0.3 };
  it('is a level and a tilt whichever way they go, and flatness only where it may grow', () => {
    expect(worseningPerYearDb('level', slope)).toBe(0.9);
    expect(worseningPerYearDb('tilt', { fromPerYearDb: -0.1, toPerYearDb: 0.4 })).toBe(0.4);
    expect(worseningPerYearDb('flatness', slope)).toBe(0);
    expect(worseningPerYearDb('flatness', { fromPerYearDb: -0.9, toPerYearDb: 0.2 })).toBe(0.2);
  });
  it('drifts only where that is sure', () => {
    expect(drifts('level', { isSure: true, perYearDb: -0.5 })).toBe(true);
    expect(drifts('flatness', { isSure: true, perYearDb: 0.5 })).toBe(true);
    expect(drifts('flatness', { isSure: true, perYearDb: -0.5 })).toBe(false);
    expect(drifts('tilt', { isSure: false, perYearDb: 0.5 })).toBe(false);
  });
});
