import { describe, expect, it } from 'vitest';
import { positionOf } from '../../../core/line/position.ts';

describe.each(['linear', 'cable'] as const)('%s', (shape) => {
  it('is 0 at the low and 1 at the high frequency', () => {
    expect(positionOf(54, shape, 54, 870)).toBe(0);
    expect(positionOf(870, shape, 54, 870)).toBe(1);
  });
  it('goes on outside', () => {
    expect(positionOf(5, shape, 54, 870)).toBeLessThan(0);
    expect(positionOf(1218, shape, 54, 870)).toBeGreaterThan(1);
  });
  it('throws where there is no position', () => {
    expect(() => positionOf(100, shape, 870, 54)).toThrow(RangeError);
    expect(() => positionOf(100, shape, 54, 54)).toThrow(RangeError);
    expect(() => positionOf(Number.NaN, shape, 54, 870)).toThrow(RangeError);
  });
});

it('is half way at the middle frequency, or at the middle of the square roots', () => {
  expect(positionOf(462, 'linear', 54, 870)).toBe(0.5);
  // (sqrt 256 - sqrt 100) / (sqrt 484 - sqrt 100) = 6 / 12
  expect(positionOf(256, 'cable', 100, 484)).toBe(0.5);
});
it('refuses a negative frequency where a square root is asked for', () =>
  expect(() => positionOf(-1, 'cable', 54, 870)).toThrow(RangeError));
