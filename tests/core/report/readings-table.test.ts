import { expect, it } from 'vitest';
import { readingsTable } from '../../../core/report/readings-table.ts';
import { portsOf } from '../../../core/report/visit.ts';
import { reportedVisit, reportFrame } from '../../support/reported-visit.ts';

const [view] = portsOf(reportedVisit(), reportFrame());
if (view?.left == null) throw new Error('no port');

it('has every reading, rising in MHz, with its unit in the title', () => {
  const table = readingsTable(view, 'dBuV');
  if (table.block !== 'table') throw new Error('no table');
  expect(table.rows).toHaveLength(view.found.sweep.rows.length);
  expect(table.columns.map(({ title }) => title)).toContain('As left, dB\u00B5V');
  const mhz = table.rows.map(([first]) => Number(first?.text));
  expect(mhz).toEqual([...mhz].sort((a, b) => a - b));
  // 0 dBmV is 60 dBµV (75 ohm), whatever the level.
  const level = view.left?.sweep.rows.find(({ frequencyMhz }) => frequencyMhz === mhz[0])?.levelDbmv ?? 0;
  expect(Number(table.rows[0]?.[3]?.text)).toBeCloseTo(level + 60, 1);
});

it('says where the meter had no level', () => {
  const rows = view.found.sweep.rows.map((row, i) => (i === 0 ? { ...row, levelDbmv: null } : row));
  const found = { ...view.found, sweep: { ...view.found.sweep, rows } };
  expect(JSON.stringify(readingsTable({ ...view, found }, 'dBmV'))).toContain('no level');
});
