import { expect, it } from 'vitest';
import type { Design } from '../../../core/files/station.ts';
import { deviationFromDesignDb, isWithinTolerance } from '../../../core/line/deviation.ts';

// A line that rises 10 dB over 1000 MHz, so that targets can be told by eye.
const design: Design = {
  lowMhz: 100,
  lowDbmv: 36,
  highMhz: 1100,
  highDbmv: 46,
  shape: 'linear',
  toleranceDb: 1,
  flatnessDb: 2,
};

it('is the level less the target, with its sign', () => {
  expect(deviationFromDesignDb(design, 600, 40)).toBeCloseTo(-1, 12);
  expect(deviationFromDesignDb(design, 100, 36.5)).toBeCloseTo(0.5, 12);
  expect(deviationFromDesignDb(design, 1100, 46)).toBe(0);
});

it('is nothing outside the range of the design', () => {
  expect(deviationFromDesignDb(design, 99.9, 36)).toBeNull();
  expect(deviationFromDesignDb(design, 1100.1, 46)).toBeNull();
});

it('counts the tolerance itself as inside, on both sides', () => {
  expect(isWithinTolerance(1, 1)).toBe(true);
  expect(isWithinTolerance(-1, 1)).toBe(true);
  expect(isWithinTolerance(0.1 + 0.2, 0.3)).toBe(true);
  expect(isWithinTolerance(1.001, 1)).toBe(false);
});
