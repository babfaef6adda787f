import { expect, it } from 'vitest';
import { directionOf, isSent } from '../../../../core/files/pasted/direction.ts';
import { columnsOf, type Table } from '../../../../core/files/pasted/table.ts';

const table = (title: string, cells: readonly string[], row: readonly string[]): Table => {
  const header = { line: 2, cells };
  const titles = title === '' ? [] : [{ line: 1, text: title }];
  return {
    separator: ',',
    layout: 'rows',
    header,
    columns: columnsOf(header).columns,
    body: [{ line: 3, cells: row }],
    titles,
  };
};

// The words are those of DOCSIS.
it.each<[string, readonly string[], string, string | null]>([
  ['Downstream Bonded Channels', ['Frequency', 'Power'], '', 'downstream'],
  ['Upstream Bonded Channels', ['Frequency', 'Power'], '', 'upstream'],
  ['', ['Frequency', 'Symbol Rate', 'Power'], '', 'upstream'],
  ['', ['Frequency', 'Rx Power'], '', 'downstream'],
  ['', ['Frequency', 'Power', 'Type'], 'ATDMA', 'upstream'],
  ['', ['Frequency', 'Power', 'Type'], 'OFDM', null],
  ['Downstream and upstream', ['Frequency', 'Power'], '', null],
])('%j over %j and %j', (title, cells, cell, expected) => {
  expect(directionOf(table(title, cells, ['1', '2', cell]))).toBe(expected);
});

it('calls sent what a modem sends, and not a return that was measured', () => {
  const heads = ['Frequency', 'Power'];
  expect(isSent(table('Upstream Bonded Channels', heads, ['10', '40']))).toBe(true);
  expect(isSent(table('', ['Frequency', 'Power', 'Type'], ['10', '40', 'ATDMA']))).toBe(true);
  expect(isSent(table('Return', heads, ['10', '20']))).toBe(false);
  expect(isSent(table('Downstream', heads, ['600', '2']))).toBe(false);
});
