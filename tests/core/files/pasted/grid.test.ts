import { expect, it } from 'vitest';
import { gridOf, mayPart, separatorName } from '../../../../core/files/pasted/grid.ts';

const cellsOf = (text: string, separator: string) => {
  const grid = gridOf(text, separator, 'x');
  return grid.ok ? grid.value.map(({ line, cells }) => [line, ...cells]) : grid.where;
};

it('splits by each separator', () => {
  expect(cellsOf('a,"b,c"\n\nd,e\n', ',')).toEqual([
    [1, 'a', 'b,c'],
    [3, 'd', 'e'],
  ]);
  expect(cellsOf('| a | **b** |\na|b\n', '|')).toEqual([
    [1, 'a', 'b'],
    [2, 'a', 'b'],
  ]);
  expect(cellsOf('Frequency: 57 MHz\nalone\n', ':')).toEqual([
    [1, 'Frequency', '57 MHz'],
    [2, 'alone'],
  ]);
  expect(cellsOf('a  b\n', ' ')).toEqual([[1, 'a', 'b']]);
  expect(cellsOf('a,"b\n', ',')).toBe('x, line 1');
});

it('knows whether a separator stands in a text, and its name', () => {
  expect([mayPart('a│b', '|'), mayPart('a b', '\t'), mayPart('a=b', ':'), mayPart('a,b', ',')]).toEqual([
    true,
    false,
    true,
    true,
  ]);
  expect(['\t', '|', ' ', 'x'].map(separatorName)).toEqual(['tab', 'bar', 'blanks', 'x']);
});
