import { expect, it } from 'vitest';
import { isSummary } from '../../../../core/files/pasted/summary-row.ts';

it.each<[string, boolean]>([
  ['Average', true],
  ['Total:', true],
  ['Std. dev.', true],
  ['Mittelwert', true],
  ['Max level', true],
  ['Max Radio', false],
  ['Total TV', false],
  ['12', false],
])('a row that begins with %j: %s', (word, expected) => {
  expect(isSummary({ line: 4, cells: ['', word, '1.5'] })).toBe(expected);
});
