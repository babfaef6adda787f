import { expect, it } from 'vitest';
import { timeLeftMs } from '../../../core/meters/time-left.ts';

const every = (ms: number, count: number, fromMs = 0) =>
  Array.from({ length: count }, (_, i) => fromMs + i * ms);

it('says nothing before the pace is known', () => {
  expect(timeLeftMs([], 10)).toBeNull();
  expect(timeLeftMs([0, 20], 10)).toBeNull();
});
it('is the rest of the plan at the pace so far', () => {
  expect(timeLeftMs(every(20, 10), 158)).toBe(148 * 20);
  expect(timeLeftMs(every(20, 158), 158)).toBe(0);
});
it('forgets a pause, and follows a pace that changes', () => {
  expect(timeLeftMs([...every(20, 10), ...every(20, 10, 30_000)], 40)).toBe(20 * 20);
  expect(timeLeftMs([...every(20, 30), ...every(100, 30, 700)], 70)).toBe(10 * 100);
});
