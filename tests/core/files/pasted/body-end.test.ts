import { expect, it } from 'vitest';
import { bodyOf, isNumberLike, noted, readsLike } from '../../../../core/files/pasted/body-end.ts';
import { columnsOf } from '../../../../core/files/pasted/table.ts';

const header = { line: 1, cells: ['f_mhz', 'dBmV', 'label'] };
const { columns } = columnsOf(header);
const row = (line: number, ...cells: string[]) => ({ line, cells });
const ends = (...rows: ReturnType<typeof row>[]) => {
  const { body, sections, end } = bodyOf(rows, 0, header, columns, () => false);
  return [body.length, sections.length, end];
};

it('ends at a foot and at headings of something else behind a blank line', () => {
  expect(ends(row(2, '57', '1', 'a'), row(3, 'That is all'))).toEqual([1, 0, 1]);
  expect(ends(row(2, '57', '1', 'a'), row(4, 'Channel', 'Errors'), row(5, '1', '2'))).toEqual([1, 0, 1]);
});

it('goes on behind a section, and never loses what may be a reading', () => {
  expect(ends(row(2, '57', '1', 'a'), row(3, 'OFDM'), row(4, '63', '2', 'b'))).toEqual([2, 1, 3]);
  expect(ends(row(2, '57', '1', 'a'), row(3, 'Upstream'), row(4, '63', '2', 'b'))).toEqual([3, 0, 3]);
  expect(ends(row(2, '57', '1', 'a'), row(4, 'low', 'x', 'b'), row(5, '63', '2', 'b'))).toEqual([3, 0, 3]);
});

it('knows a reading of the same form', () => {
  expect(readsLike(row(3, '63', '2', 'b'), row(2, '57', '1', 'a'), columns)).toBe(true);
  expect(readsLike(row(3, '63', '2', 'b'), row(2, '57 MHz', '1', 'a'), columns)).toBe(false);
  expect(readsLike(undefined, null, columns)).toBe(false);
  expect([isNumberLike('-57 MHz'), isNumberLike('Ch 5')]).toEqual([true, false]);
  expect(noted(row(3, '', 'a', 'b'))).toEqual({ line: 3, text: 'a b' });
});
