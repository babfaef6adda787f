import { expect, it } from 'vitest';
import { differencesOf } from '../../../core/records/differences.ts';

it('names each key whose values differ, and how', () => {
  const here = { a: 1, b: 'x', c: { d: null, e: 2 }, f: [1, 2, 3, 4], g: 'y'.repeat(90), h: [1] };
  const other = { a: 1, b: 'z', c: { d: 5, e: 2 }, f: [1, 9, 3, 8], g: 'y'.repeat(91), h: [1, 2], i: 1 };
  expect(differencesOf(here, other)).toEqual([
    { key: 'b', here: 'x', other: 'z' },
    { key: 'c.d', here: 'none', other: '5' },
    { key: 'f 2', here: '2, and 1 more', other: '9, and 1 more' },
    { key: 'g', here: `${'y'.repeat(59)}…`, other: `${'y'.repeat(59)}…` },
    { key: 'h', here: '1 in a list', other: '2 in a list' },
    { key: 'i', here: 'not there', other: '1' },
  ]);
});

it('finds none between a record and itself', () => {
  const record = { a: [{ b: 1 }, null], c: { d: 'e' } };
  expect(differencesOf(record, record)).toEqual([]);
});
