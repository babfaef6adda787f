import { describe, expect, it } from 'vitest';
import { ambientOffsetAtC, ambientOffsetAtF } from '../../../core/gain-control/ambient.ts';

// The bands: common practice, no published source; the two between them are interpolated.
describe('the ambient compensation', () => {
  it.each([
    [130, 2, 'practice'],
    [100.01, 2, 'practice'],
    [100, 1, 'interpolated'],
    [90, 1, 'interpolated'],
    [80.01, 1, 'interpolated'],
    [80, 0, 'practice'],
    [60, 0, 'practice'],
    [40, 0, 'practice'],
    [39.99, -1, 'interpolated'],
    [20, -1, 'interpolated'],
    [19.99, -2, 'practice'],
    [-40, -2, 'practice'],
  ] as const)('at %d degrees F is %d dB, %s', (ambientF, offsetDb, basis) => {
    expect(ambientOffsetAtF(ambientF)).toEqual({ offsetDb, basis });
  });

  // 100, 80, 40 and 20 degrees F in C, by the definition: the arithmetic back to F may miss by a hair.
  it.each([
    [((100 - 32) * 5) / 9, 1],
    [((80 - 32) * 5) / 9, 0],
    [((40 - 32) * 5) / 9, 0],
    [((20 - 32) * 5) / 9, -1],
    [37.77777777777778, 1],
    [-6.666666666666667, -1],
    [37.8, 2],
    [-6.7, -2],
    [20, 0],
  ])('at %d degrees C is %d dB', (ambientC, offsetDb) => {
    expect(ambientOffsetAtC(ambientC).offsetDb).toBe(offsetDb);
  });

  it('throws on no number', () => {
    expect(() => ambientOffsetAtC(Number.NaN)).toThrow(RangeError);
  });
});
