import { expect, it } from 'vitest';
import { sentRows } from '../../../../core/files/pasted/row-directions.ts';
import { columnsOf } from '../../../../core/files/pasted/table.ts';

const sent = (heads: string[], ...rows: string[][]) => {
  const header = { line: 1, cells: heads };
  const body = rows.map((cells, i) => ({ line: i + 2, cells }));
  const { columns } = columnsOf(header);
  const read = sentRows({ separator: ',', layout: 'rows', header, columns, body, titles: [] }, 'a.csv');
  return read.ok ? [...read.value].map(([row, word]) => [row.line, word]) : `${read.code} ${read.where}`;
};

it('names the rows that say they are sent, where others say they are received', () => {
  expect(sent(['Dir', 'MHz', 'dBmV'], ['DS', '603', '1'], ['US', '37', '44'])).toEqual([[3, 'US']]);
  expect(sent(['Channel', 'MHz', 'dBmV'], ['Downstream 1', '603', '1'], ['Upstream 1', '37', '44'])).toEqual([
    [3, 'Upstream 1'],
  ]);
});

it('takes no other words for a direction', () => {
  expect(sent(['Channel', 'MHz', 'dBmV'], ['DS News', '603', '1'], ['US News', '609', '1'])).toEqual([]);
  expect(sent(['Status', 'MHz', 'dBmV'], ['up', '603', '1'], ['down', '609', '1'])).toEqual([]);
  expect(sent(['Dir', 'MHz', 'dBmV'], ['US', '37', '44'])).toEqual([]);
});

it('refuses forward and return in one table', () => {
  expect(sent(['Path', 'MHz', 'dBmV'], ['forward', '603', '1'], ['return', '37', '4'])).toBe(
    'two-directions a.csv, line 3',
  );
});
