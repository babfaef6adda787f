import { expect, it } from 'vitest';
import {
  byChanges,
  byOrder,
  byWorstThenChanges,
  byWorstThenPad,
  type Found,
} from '../../../core/propose/rank.ts';

const found = (worstDb: number, changeCount: number, padDb: number, indices: readonly number[]): Found => ({
  worstDb,
  changeCount,
  padDb,
  indices,
});

it('settles worst, pad, order', () => {
  expect(byWorstThenPad(found(0.4, 2, 9, [0]), found(0.5, 1, 0, [0]))).toBeLessThan(0);
  expect(byWorstThenPad(found(0.4, 2, 9, [0]), found(0.4 + 1e-13, 2, 3, [1]))).toBeGreaterThan(0);
  expect(byWorstThenPad(found(0.4, 2, 3, [1, 0]), found(0.4, 2, 3 + 1e-13, [0, 9]))).toBeGreaterThan(0);
  expect(byWorstThenPad(found(0.4, 2, 3, [1, 0]), found(0.4, 2, 3, [1, 0]))).toBe(0);
});
it('puts fewer changes first among equally good, and never before better', () => {
  expect(byWorstThenChanges(found(0.4, 1, 9, [0]), found(0.4, 2, 0, [0]))).toBeLessThan(0);
  expect(byWorstThenChanges(found(0.5, 0, 0, [0]), found(0.4, 3, 9, [0]))).toBeGreaterThan(0);
});
it('puts fewer changes first of all where changes count', () => {
  expect(byChanges(found(0.9, 1, 9, [0]), found(0.4, 2, 0, [0]))).toBeLessThan(0);
  expect(byChanges(found(0.9, 1, 9, [0]), found(0.4, 1, 9, [0]))).toBeGreaterThan(0);
});
it('compares position by position', () => {
  expect(byOrder([0, 5], [1, 0])).toBeLessThan(0);
  expect(byOrder([1, 5], [1, 6])).toBeLessThan(0);
  expect(byOrder([], [])).toBe(0);
});
