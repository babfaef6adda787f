import { expect, it } from 'vitest';
import { temperatureAt } from '../../../core/watch/temperature-at.ts';

const note = (atMs: number, ambientC: number) => ({ atMs, ambientC });

it('lies on a straight line between two notes, in whatever order they are', () => {
  const notes = [note(2000, 10), note(1000, 20)];
  expect(temperatureAt(notes, 1500)).toBe(15);
  expect(temperatureAt(notes, 1000)).toBe(20);
});

it('is the nearest note outside, and none without any', () => {
  const notes = [note(1000, 20), note(2000, 10)];
  expect(temperatureAt(notes, 0)).toBe(20);
  expect(temperatureAt(notes, 9000)).toBe(10);
  expect(temperatureAt([], 0)).toBeNull();
});

it('is the later of two notes of one moment', () => {
  expect(temperatureAt([note(1000, 20), note(1000, 21)], 1000)).toBe(21);
});
