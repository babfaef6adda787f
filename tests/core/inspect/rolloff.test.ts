import { describe, expect, it } from 'vitest';
import { fitModel } from '../../../core/inspect/model.ts';
import { bendPatch, strongestBend } from '../../../core/inspect/rolloff.ts';
import { traceOf } from '../../../core/inspect/trace.ts';
import { findingsIn, raster, simulatedSweep } from './simulated-sweep.ts';

const only = (rows: Parameters<typeof findingsIn>[0]) => {
  const [finding, ...more] = findingsIn(rows);
  if (finding?.kind !== 'rolloff' || more.length > 0) throw new Error(JSON.stringify([finding, ...more]));
  return finding;
};
const falling = (fromMhz: number, endMhz: number, depthDb: number, power: number) => (f: number) =>
  -depthDb * Math.max(0, (f - fromMhz) / (endMhz - fromMhz)) ** power;

describe('a roll-off', () => {
  it.each([
    ['high', 750, 867, 3, 2],
    ['high', 801, 867, 2, 1],
    ['high', 699, 867, 6, 3],
    ['low', 99, 57, 4, 2],
  ] as const)(
    'at the %s end, from %d to %d MHz, %d dB, power %d',
    (edge, fromMhz, endMhz, depthDb, power) => {
      const found = only(simulatedSweep(falling(fromMhz, endMhz, depthDb, power)));
      expect(found.edge).toBe(edge);
      expect(Math.abs(found.fromMhz - fromMhz)).toBeLessThan(6);
      expect(Math.abs(found.depthDb - depthDb)).toBeLessThan(0.1);
    },
  );

  it('is found in noise, with its depth; where it begins is known less well', () => {
    const found = only(simulatedSweep(falling(750, 867, 3, 2), { noiseDb: 0.2, seed: 2 }));
    expect(found.edge).toBe('high');
    expect(Math.abs(found.depthDb - 3)).toBeLessThan(0.4);
    expect(Math.abs(found.fromMhz - 750)).toBeLessThan(80);
  });

  it('of a single last row is none of a notch', () => {
    const rows = simulatedSweep((f) => (f > 863 ? -4 : 0), { noiseDb: 0.1 });
    expect(only(rows)).toMatchObject({ edge: 'high', fromMhz: 861 });
  });

  it('may be at both ends at once', () => {
    const both = (f: number) => falling(780, 867, 3, 2)(f) + falling(99, 57, 3, 2)(f);
    const found = findingsIn(simulatedSweep(both, { noiseDb: 0.1 }));
    expect(found.map((one) => (one.kind === 'rolloff' ? one.edge : one.kind))).toEqual(['low', 'high']);
  });

  it('is not a tilt of cable, however bent', () => {
    const cable = (f: number) => 4 * Math.sqrt(f / 867) - 3 * (f / 867);
    expect(findingsIn(simulatedSweep(cable))).toEqual([]);
    expect(findingsIn(simulatedSweep(cable, { noiseDb: 0.2 }))).toEqual([]);
  });
});

describe('a bend', () => {
  it('is 0 where it begins and 1 at the last row', () => {
    const mhz = raster(100, 200, 20);
    expect(bendPatch(mhz, 'high', 160, 2)).toEqual({ at: 4, values: [0.25, 1] });
    expect(bendPatch(mhz, 'low', 140, 1)).toEqual({ at: 0, values: [1, 0.5] });
    expect(bendPatch(mhz, 'high', 200, 1)).toEqual({ at: 0, values: [] });
  });

  it('is not looked for in too few rows', () => {
    const trace = traceOf(simulatedSweep(() => 0, { mhz: [57, 63, 69, 75] }));
    expect(strongestBend(fitModel(trace, []), 'high')).toBeNull();
  });
});
