import { describe, expect, it } from 'vitest';
import { echoDistance, echoPeakToPeakDb, echoRatioOf } from '../../../core/inspect/distance.ts';

describe('the distance of an echo', () => {
  // R. Hranac, "How Fast is RF?" (cablefax): c = 299,792,458 m/s = 983,571,056.43 ft/s. Worked from it: a velocity factor
  // of 0.87 and 1 MHz make 427.9 ft; 4.28 MHz make 100.0 ft.
  it.each([
    [1, 427.9],
    [4.28, 100.0],
  ])('of a period of %d MHz at 0.87 is %d ft', (periodMhz, distanceFt) => {
    expect(echoDistance(periodMhz).distanceFt).toBeCloseTo(distanceFt, 1);
  });

  it('is 149.896 metres times the factor for 1 MHz, and 491.786 feet', () => {
    expect(echoDistance(1, 1).distanceM).toBeCloseTo(149.896229, 6);
    expect(echoDistance(1, 1).distanceFt).toBeCloseTo(491.786, 3);
    expect(echoDistance(6, 0.9).distanceM).toBeCloseTo((149.896229 * 0.9) / 6, 6);
  });

  it.each([
    [0, 0.87],
    [Number.NaN, 0.87],
    [6, 0],
    [6, 1.01],
  ])('throws for %d MHz at %d', (periodMhz, factor) => {
    expect(() => echoDistance(periodMhz, factor)).toThrow(RangeError);
  });
});

describe('the swing of an echo', () => {
  // Computed from the definition, 20 log((1 + r)/(1 - r)): 20 dB down 1.743 dB, 25 dB 0.978, 30 dB 0.550, 40 dB 0.174.
  it.each([
    [20, 1.743],
    [25, 0.978],
    [30, 0.55],
    [40, 0.174],
  ])('%d dB down is %d dB', (downDb, peakToPeakDb) => {
    expect(echoPeakToPeakDb(10 ** (-downDb / 20))).toBeCloseTo(peakToPeakDb, 3);
  });

  it('is the echo whose first term has that amplitude', () => {
    expect(echoRatioOf(20 / Math.LN10 / 10)).toBeCloseTo(0.1, 12);
    expect(() => echoPeakToPeakDb(1)).toThrow(RangeError);
  });
});
