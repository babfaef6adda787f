import { describe, expect, it } from 'vitest';
import { stationDrift } from '../../../core/drift/station-drift.ts';
import { normalNoise } from '../../../core/simulate/noise.ts';
import { quillmere } from '../../../core/simulate/quillmere.ts';
import { sweep } from './sweeps.ts';

const mill = quillmere.find(({ station }) => station.name === '07 Mill Lane')?.station;
const output = mill?.ports[0];
if (mill === undefined || output === undefined) throw new Error('Mill Lane is gone');

/** A quarter of a year apart, with a tenth of a dB of noise. */
const years = (count: number, levelDb: (years: number) => number) =>
  Array.from({ length: count }, (_, n) =>
    sweep(n, {
      years: n / 4,
      levelDb: levelDb(n / 4) + 0.1 * normalNoise(7, 100, n),
      tiltDb: 0.1 * normalNoise(7, 200, n),
      flatnessDb: 1 + 0.1 * normalNoise(7, 300, n),
    }),
  );
const figure = (drift: ReturnType<typeof stationDrift>, of: string) =>
  drift?.figures.find((one) => one.of === of);

describe('a station that falls', () => {
  const drift = stationDrift(
    mill,
    output,
    years(12, (t) => 0.3 - 0.4 * t),
  );
  it('drifts, and the level says so', () =>
    expect(drift).toMatchObject({ state: 'drifting', says: 'level', basis: 'span' }));
  it('falls as fast as it was made to, within what it is uncertain by', () => {
    const trend = figure(drift, 'level')?.trend;
    expect(trend?.fromPerYearDb).toBeLessThan(-0.4);
    expect(trend?.toPerYearDb).toBeGreaterThan(-0.4);
  });
  it('has a chart of twelve values and a range less', () => {
    expect(figure(drift, 'level')?.chart?.ranges).toHaveLength(11);
    expect(figure(drift, 'level')?.signals.length).toBeGreaterThan(0);
  });
});

it('a station that stands still is steady', () => {
  expect(
    stationDrift(
      mill,
      output,
      years(12, () => 0.2),
    )?.state,
  ).toBe('steady');
});

// Six stations in a thousand at most: 1 % for the three figures together, less what is too slow to count.
it('calls fewer than one of a hundred stations that stand still drifting', () => {
  let called = 0;
  for (let seed = 0; seed < 1000; seed++) {
    const points = Array.from({ length: 5 }, (_, n) =>
      sweep(n, {
        levelDb: 0.3 * normalNoise(seed, 100, n),
        tiltDb: 0.3 * normalNoise(seed, 200, n),
        flatnessDb: 1 + 0.3 * normalNoise(seed, 300, n),
      }),
    );
    if (stationDrift(mill, output, points)?.state === 'drifting') called++;
  }
  expect(called).toBeLessThanOrEqual(16);
});

// Less unevenness is what everybody wants: nothing to go to a station for.
it('calls a flatness that shrinks no drift, and one that grows as fast a drift', () => {
  const flatter = (perYearDb: number) =>
    years(12, () => 0.2).map((one, n) => ({ ...one, flatnessDb: 3 + (perYearDb * n) / 4 }));
  const better = stationDrift(mill, output, flatter(-0.5));
  expect(figure(better, 'flatness')?.trend?.isSure).toBe(true);
  expect(figure(better, 'flatness')?.trend?.perYearDb).toBeCloseTo(-0.5, 9);
  expect(better?.state).toBe('steady');
  expect(better?.says).not.toBe('flatness');
  expect(stationDrift(mill, output, flatter(0.5))).toMatchObject({ state: 'drifting', says: 'flatness' });
});

it('is too few below three sweeps of the stretch: a repair begins it anew', () => {
  const before = years(8, (t) => -0.4 * t);
  const left = sweep(9, { years: 2, pluggedIn: { 'input pad': 3 } });
  const drift = stationDrift(mill, output, [...before, left]);
  expect(drift).toMatchObject({ state: 'too-few', says: null });
  expect(drift?.segments.map(({ points }) => points.length)).toEqual([8, 1]);
});

it('is unsure where three sweeps scatter', () => {
  const scattered = [0.9, -0.8, 0.7].map((levelDb, n) => sweep(n, { years: n / 4, levelDb }));
  expect(stationDrift(mill, output, scattered)?.state).toBe('unsure');
});

it('counts the sweeps that had to be left out for want of a temperature', () => {
  const points = years(5, () => 0).map((one, n) => (n === 2 ? { ...one, ambientC: null } : one));
  const drift = stationDrift(mill, output, points);
  expect(drift?.withoutTemperature).toBe(1);
  expect(figure(drift, 'level')?.values.map(({ place }) => place)).toEqual([0, 1, 3, 4]);
});

it('is nothing without a sweep or a design', () => {
  expect(stationDrift(mill, output, [])).toBeNull();
  const { design: _design, ...bare } = output;
  expect(stationDrift(mill, bare, [sweep(1)])).toBeNull();
});
