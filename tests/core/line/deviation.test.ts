import { expect, it } from 'vitest';
import { isWithinTolerance } from '../../../core/line/deviation.ts';

it('counts the tolerance itself as inside, on both sides', () => {
  expect(isWithinTolerance(1, 1)).toBe(true);
  expect(isWithinTolerance(-1, 1)).toBe(true);
  expect(isWithinTolerance(0.1 + 0.2, 0.3)).toBe(true);
  expect(isWithinTolerance(1.001, 1)).toBe(false);
});
