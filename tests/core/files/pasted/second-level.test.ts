import { expect, it } from 'vitest';
import { secondLevel } from '../../../../core/files/pasted/second-level.ts';
import { columnsOf } from '../../../../core/files/pasted/table.ts';

const refused = (heads: string[], ...rows: string[][]) => {
  const header = { line: 1, cells: heads };
  const body = rows.map((cells, i) => ({ line: i + 2, cells }));
  const { columns } = columnsOf(header);
  return (
    secondLevel({ separator: ',', layout: 'rows', header, columns, body, titles: [] }, 'a.csv')?.help ?? null
  );
};

it('refuses a second column that may be the level', () => {
  expect(refused(['MHz', 'Level (dBmV)', 'Corrected (dBmV)'], ['57', '16', '36'])).toMatch(
    /"Corrected \(dBmV\)"/,
  );
  expect(refused(['MHz', 'Level A', 'Level B'], ['57', '16', '36'])).toMatch(/"Level B"/);
});

it('takes a column that says what else it is, or holds no levels, for something else', () => {
  for (const heads of [
    ['MHz', 'Level (dBmV)', 'Target (dBmV)'],
    ['MHz', 'Level (dBmV)', 'Noise floor (dBmV)'],
    ['MHz', 'Level (dBmV)', 'Tilt (dB)'],
    ['MHz', 'Level (dBmV)', 'Errors'],
    ['MHz', 'Level (dBmV)', 'Level (dBuV)'],
  ])
    expect([heads, refused(heads, ['57', '16', '36'])]).toEqual([heads, null]);
  expect(refused(['MHz', 'Level (dBmV)', 'Power supply'], ['57', '16', 'good'])).toBeNull();
  expect(refused(['MHz', 'Level (dBmV)', 'Power supply'], ['57', '16', '60 V'])).toBeNull();
});
