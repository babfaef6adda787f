import { expect, it } from 'vitest';
import { readCarefully } from '../../../electron/backend/meters/read-carefully.ts';

/** A meter that says these levels one after the other, and how often it was asked. */
function saying(...levels: (number | null)[]) {
  let asked = 0;
  const next = async () => {
    const meterDbmv = levels[asked] ?? null;
    asked += 1;
    return { frequencyMhz: 711, meterDbmv, kind: null, takenAt: '2026-03-01T08:00:00.000Z' };
  };
  return { next, asked: () => asked };
}
const carefully = { repeats: 1, recheck: true };

it.each([
  ['a level near the one before is asked once', [12], 13, 12, 1],
  ['the first of a sweep is asked twice', [12, 12.3], undefined, 12, 2],
  ['a far one that repeats is kept', [-30, -30.4], 12, -30, 2],
  ['a far one that does not repeat gives way to the middle of three', [-1.2, 12.1, 12.3], 12, 12.1, 3],
  ['no level that does not repeat gives way', [null, 12.1, 12.3], 12, 12.1, 3],
  ['no level that repeats is kept', [null, null], 12, null, 2],
] as const)('%s', async (_what, levels, before, meant, times) => {
  const { next, asked } = saying(...levels);
  expect((await readCarefully(next, before, carefully)).meterDbmv).toBe(meant);
  expect(asked()).toBe(times);
});

it('makes one reading of many, their mean', async () => {
  const { next, asked } = saying(12, 12.2, 12.4, 12.6);
  const reading = await readCarefully(next, 12, { repeats: 4, recheck: true });
  expect(reading.meterDbmv).toBeCloseTo(12.3, 9);
  expect(asked()).toBe(4);
});

it('asks once where nothing else is wished', async () => {
  const { next, asked } = saying(-50);
  expect((await readCarefully(next, undefined, { repeats: 1, recheck: false })).meterDbmv).toBe(-50);
  expect(asked()).toBe(1);
});
