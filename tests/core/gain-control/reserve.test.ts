import { describe, expect, it } from 'vitest';
import { reserveAt } from '../../../core/gain-control/reserve.ts';

// The rule: 3.5 dB at 750 MHz, 4.0 at 870, 4.5 at 1000. Common practice, no published source.
describe('the reserve', () => {
  it.each([
    [750, 3.5, 'practice'],
    [870, 4.0, 'practice'],
    [1000, 4.5, 'practice'],
    // Halfway by hand: 810 is the middle of 750 and 870, 935 of 870 and 1000.
    [810, 3.75, 'interpolated'],
    [935, 4.25, 'interpolated'],
    // The end slopes by hand: 0.5 dB in 120 MHz, and 0.5 dB in 130 MHz.
    [630, 3.0, 'extrapolated'],
    [1260, 5.5, 'extrapolated'],
    [1218, 4.5 + 218 / 260, 'extrapolated'],
    [749.99, 3.5 - 0.01 / 240, 'extrapolated'],
    [1000.01, 4.5 + 0.01 / 260, 'extrapolated'],
    [750.01, 3.5 + 0.01 / 240, 'interpolated'],
    [870.01, 4 + 0.01 / 260, 'interpolated'],
  ] as const)('at %d MHz is %d dB, %s', (topMhz, reserveDb, basis) => {
    const reserve = reserveAt(topMhz);
    expect(reserve.reserveDb).toBeCloseTo(reserveDb, 12);
    expect(reserve.basis).toBe(basis);
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('throws at %d MHz', (topMhz) => {
    expect(() => reserveAt(topMhz)).toThrow(RangeError);
  });
});
