import { describe, expect, it } from 'vitest';
import { fitModel } from '../../../core/inspect/model.ts';
import { refinedRipple, rippleLimits, rippleTrials, strongestRipple } from '../../../core/inspect/ripple.ts';
import { traceOf } from '../../../core/inspect/trace.ts';
import { channels, echoOf, findingsIn, raster, rippleOf, simulatedSweep } from './simulated-sweep.ts';

const only = (rows: Parameters<typeof findingsIn>[0]) => {
  const [finding, ...more] = findingsIn(rows);
  if (finding?.kind !== 'ripple' || more.length > 0) throw new Error(JSON.stringify([finding, ...more]));
  return finding;
};

describe('a ripple', () => {
  it.each([13, 20, 48, 97, 250])('of %d MHz and 1 dB is found on the channels', (periodMhz) => {
    const found = only(simulatedSweep(rippleOf(periodMhz, 1)));
    expect(found.periodMhz / periodMhz).toBeCloseTo(1, 3);
    expect(found.peakToPeakDb).toBeCloseTo(1, 2);
  });

  it('is found in noise as strong as itself', () => {
    const found = only(simulatedSweep(rippleOf(48, 0.8), { noiseDb: 0.2, seed: 3 }));
    expect(Math.abs(found.periodMhz - 48)).toBeLessThan(0.3);
    expect(Math.abs(found.peakToPeakDb - 0.8)).toBeLessThan(0.15);
  });

  it('is found across gaps, where a third of the channels are not there', () => {
    const mhz = channels.filter((f) => (f < 200 || f > 350) && (f < 500 || f > 620));
    const found = only(simulatedSweep(rippleOf(37, 1), { mhz, noiseDb: 0.1 }));
    expect(Math.abs(found.periodMhz - 37)).toBeLessThan(0.15);
  });

  // Velocity factor 0.87: 1 MHz is 427.9 ft, 4.28 MHz is 100.0 ft (worked from R. Hranac, "How Fast is RF?").
  it.each([
    [1, 0.25, 427.9],
    [4.28, 1, 100.0],
  ])('of %d MHz on a raster of %d MHz is %d ft away', (periodMhz, stepMhz, distanceFt) => {
    const found = only(simulatedSweep(rippleOf(periodMhz, 1), { mhz: raster(400, 600, stepMhz) }));
    expect(Math.abs(found.distanceFt - distanceFt)).toBeLessThan(0.2);
  });

  // An echo 20 dB down makes 1.743 dB, 10.458 dB down (r = 0.3) makes 5.377 dB: definition.
  it.each([
    [0.1, 1.743],
    [0.3, 5.377],
  ])('of an echo of %d is one ripple of %d dB, its overtones no others', (ratio, peakToPeakDb) => {
    const found = only(simulatedSweep(echoOf(ratio, 40)));
    expect(Math.abs(found.peakToPeakDb / peakToPeakDb - 1)).toBeLessThan(0.01);
    expect(found.periodMhz).toBeCloseTo(40, 2);
  });

  it('may be two, the stronger first', () => {
    const both = (f: number) => rippleOf(60, 1.2)(f) + rippleOf(22, 0.8)(f + 3);
    const found = findingsIn(simulatedSweep(both, { noiseDb: 0.1 }));
    expect(found.map((one) => (one.kind === 'ripple' ? Math.round(one.periodMhz) : one.kind))).toEqual([
      60, 22,
    ]);
  });
});

describe('what a sweep can show of ripple', () => {
  it('is two spacings at least and half of its widest part at most', () => {
    expect(rippleLimits(6, 810)).toEqual({ shortestMhz: 12, longestMhz: 405 });
    const fitted = fitModel(traceOf(simulatedSweep(() => 0)), []);
    expect(rippleTrials(fitted, { shortestMhz: 12, longestMhz: 405 })).toBeCloseTo(131, 0);
    expect(strongestRipple(fitted, { shortestMhz: 12, longestMhz: 10 })).toBeNull();
    expect(strongestRipple(fitted, { shortestMhz: 12, longestMhz: 405 })).toBeNull();
  });

  it('is made exact from near it', () => {
    const fitted = fitModel(traceOf(simulatedSweep(rippleOf(48, 1))), []);
    const exact = refinedRipple(fitted, 1 / 48.3, { shortestMhz: 12, longestMhz: 405 });
    expect(1 / exact.perMhz).toBeCloseTo(48, 3);
    expect(exact.amplitudeDb).toBeCloseTo(0.5, 3);
  });
});
