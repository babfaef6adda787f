import { expect, it } from 'vitest';
import { usableRows } from '../../../core/line/usable-rows.ts';

const rows = [
  { frequencyMhz: 300, levelDbmv: 3 },
  { frequencyMhz: 100, levelDbmv: 1, unlocked: true },
  { frequencyMhz: 0, levelDbmv: 0, unlocked: true },
  { frequencyMhz: -5, levelDbmv: 0 },
  { frequencyMhz: null, levelDbmv: 4 },
  { frequencyMhz: 200, levelDbmv: null },
  { frequencyMhz: null, levelDbmv: 2, reason: 'a range, not one frequency' },
  { frequencyMhz: 200, levelDbmv: 2 },
];

it('takes finite levels at frequencies above 0, in rising frequency, and names the others', () => {
  const { usable, excluded, outsideCount } = usableRows(rows, undefined, undefined);
  expect(usable.map((row) => row.frequencyMhz)).toEqual([100, 200, 300]);
  expect(outsideCount).toBe(0);
  expect(excluded).toEqual([
    { frequencyMhz: 0, reason: expect.stringContaining('not locked') },
    { frequencyMhz: -5, reason: expect.stringContaining('not above 0') },
    { frequencyMhz: null, reason: expect.stringContaining('no single frequency') },
    { frequencyMhz: 200, reason: 'no level is given' },
    { frequencyMhz: null, reason: 'a range, not one frequency' },
  ]);
});

it('counts what lies outside both ends, the ends themselves inside', () => {
  const { usable, outsideCount } = usableRows(rows, 100, 200);
  expect(usable.map((row) => row.frequencyMhz)).toEqual([100, 200]);
  expect(outsideCount).toBe(1);
});

it('never lets a number that is none through', () => {
  const { usable, excluded } = usableRows(
    [
      { frequencyMhz: Number.NaN, levelDbmv: 1 },
      { frequencyMhz: 100, levelDbmv: Number.POSITIVE_INFINITY },
    ],
    undefined,
    undefined,
  );
  expect(usable).toEqual([]);
  expect(excluded.map(({ frequencyMhz }) => frequencyMhz)).toEqual([null, 100]);
});
