import { expect, it } from 'vitest';
import { holdsLevels } from '../../../../core/files/pasted/stray-levels.ts';

const holds = (...cells: string[]) => holdsLevels({ line: 1, cells });

it('knows levels that stand outside of every table', () => {
  expect(holds('1', '57 MHz', '36.1 dBmV')).toBe(true);
  expect(holds('', '1 dBmV', '2 dBmV')).toBe(true);
});

it('takes no words, no counters and no single level for that', () => {
  expect(holds('5120 Ksym/sec', '44.0 dBmV')).toBe(false);
  expect(holds('1', '57', '36.1')).toBe(false);
  expect(holds('at', '57 MHz', 'I', 'see', '36.1 dBmV', 'and', 'more')).toBe(false);
  expect(holds()).toBe(false);
});
