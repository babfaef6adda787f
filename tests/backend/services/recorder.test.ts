import { setTimeout as wait } from 'node:timers/promises';
import { expect, it } from 'vitest';
import { createRecorder } from '../../../electron/backend/services/recorder.ts';

function recording(full = () => false) {
  const batches: number[][] = [];
  const told: (readonly [item: number, place: number])[] = [];
  const faults: unknown[] = [];
  const recorder = createRecorder<number>({
    keep: (items, place) => {
      if (full()) throw new Error('full');
      expect(place).toBe(batches.flat().length);
      batches.push([...items]);
    },
    kept: (item, place) => {
      // On disk before anybody hears of it.
      expect(batches.flat()[place]).toBe(item);
      told.push([item, place]);
    },
    failed: (fault) => faults.push(fault),
  });
  return { recorder, batches, told, faults };
}

it('keeps each by itself when they come slowly', async () => {
  const { recorder, batches, told } = recording();
  for (const item of [7, 8, 9]) {
    recorder.take(item);
    expect(told.at(-1)?.[0]).toBe(item);
    await wait(30);
  }
  expect(batches).toEqual([[7], [8], [9]]);
});

it('keeps those together that come in a burst, and lets none wait for the next', async () => {
  const { recorder, batches, told } = recording();
  for (let item = 0; item < 50; item += 1) recorder.take(item);
  expect(batches).toEqual([[0]]);
  await wait(60);
  expect(batches).toHaveLength(2);
  expect(told.map(([item]) => item)).toEqual(Array.from({ length: 50 }, (_, i) => i));
  expect(recorder.waiting()).toEqual([]);
});

it('keeps what waits when it is told to', () => {
  const { recorder, batches } = recording();
  for (const item of [1, 2, 3]) recorder.take(item);
  recorder.flush();
  recorder.flush();
  expect(batches).toEqual([[1], [2, 3]]);
  expect(recorder.keptCount()).toBe(3);
});

it('says once that it can not keep more, tells of nothing more, and still holds it', () => {
  let full = false;
  const { recorder, told, faults } = recording(() => full);
  recorder.take(1);
  full = true;
  recorder.take(2);
  recorder.flush();
  full = false;
  recorder.take(3);
  recorder.flush();
  expect(faults).toHaveLength(1);
  expect(told.map(([item]) => item)).toEqual([1]);
  expect(recorder.keptCount()).toBe(1);
  expect(recorder.waiting()).toEqual([2, 3]);
});
