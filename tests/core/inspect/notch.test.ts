import { describe, expect, it } from 'vitest';
import { fitModel } from '../../../core/inspect/model.ts';
import { bellPatch, refinedBell, strongestBells } from '../../../core/inspect/notch.ts';
import { traceOf } from '../../../core/inspect/trace.ts';
import { findingsIn, notchAt, simulatedSweep } from './simulated-sweep.ts';

const only = (rows: Parameters<typeof findingsIn>[0]) => {
  const [finding, ...more] = findingsIn(rows);
  if (finding?.kind !== 'notch' || more.length > 0) throw new Error(JSON.stringify([finding, ...more]));
  return finding;
};

describe('a notch', () => {
  it.each([
    [400, 6, 20],
    [303, 2, 40],
    [650, 3, 80],
    [500, 12, 14],
  ])('at %d MHz, %d dB deep and %d MHz wide is found', (centerMhz, depthDb, widthMhz) => {
    const found = only(simulatedSweep(notchAt(centerMhz, depthDb, widthMhz)));
    expect(found.centerMhz).toBeCloseTo(centerMhz, 1);
    expect(found.depthDb / depthDb).toBeCloseTo(1, 1.5);
    expect(found.widthMhz / widthMhz).toBeCloseTo(1, 1.5);
  });

  it('is found in noise', () => {
    const found = only(simulatedSweep(notchAt(400, 4, 25), { noiseDb: 0.3, seed: 5 }));
    expect(Math.abs(found.centerMhz - 400)).toBeLessThan(2);
    expect(Math.abs(found.depthDb - 4)).toBeLessThan(0.8);
    expect(Math.abs(found.widthMhz - 25)).toBeLessThan(6);
  });

  it('in one channel is as wide as the raster', () => {
    const found = only(simulatedSweep((f) => (f === 399 ? -3 : 0), { noiseDb: 0.1 }));
    expect(Math.abs(found.centerMhz - 399)).toBeLessThan(1);
    expect(Math.abs(found.depthDb - 3)).toBeLessThan(0.4);
    expect(found.widthMhz).toBeCloseTo(6, 0);
  });

  it('of another shape is still one: a resonance, a block of channels', () => {
    const resonance = only(simulatedSweep((f) => -6 / (1 + ((2 * (f - 400)) / 20) ** 2)));
    expect(Math.abs(resonance.centerMhz - 400)).toBeLessThan(1);
    const block = only(simulatedSweep((f) => (f > 380 && f < 440 ? -4 : 0), { noiseDb: 0.1 }));
    expect(Math.abs(block.centerMhz - 408)).toBeLessThan(3);
    expect(Math.abs(block.widthMhz - 60)).toBeLessThan(12);
  });

  it('may be two beside each other', () => {
    const two = (f: number) => notchAt(300, 3, 18)(f) + notchAt(370, 4, 18)(f);
    const found = findingsIn(simulatedSweep(two, { noiseDb: 0.1 }));
    expect(found.map((one) => (one.kind === 'notch' ? Math.round(one.centerMhz / 10) : one.kind))).toEqual([
      30, 37,
    ]);
  });

  it('is not a bump', () => {
    expect(findingsIn(simulatedSweep((f) => -notchAt(600, 3, 30)(f), { noiseDb: 0.1 }))).toEqual([]);
  });
});

describe('a bell', () => {
  it('is half as high at half of its width to each side', () => {
    expect(bellPatch([90, 95, 100, 105, 110], 100, 10)).toEqual({
      at: 0,
      values: [2 ** -4, 0.5, 1, 0.5, 2 ** -4],
    });
  });

  it('is made exact from near it, and is none in too few rows', () => {
    const trace = traceOf(simulatedSweep(notchAt(400, 6, 20)));
    const near = { centerMhz: 404, widthMhz: 26, heightDb: -5, logChance: 0 };
    const exact = refinedBell(trace, fitModel(trace, []), near);
    expect(exact.centerMhz).toBeCloseTo(400, 1);
    const few = traceOf(simulatedSweep(() => 0, { mhz: [57, 63, 69, 75] }));
    expect(strongestBells(few, fitModel(few, []))).toEqual({ dip: null, bump: null });
  });
});
