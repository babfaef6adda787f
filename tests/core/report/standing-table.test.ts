import { expect, it } from 'vitest';
import { portView } from '../../../core/report/port-view.ts';
import { markOf, standingTable, verdictWord } from '../../../core/report/standing-table.ts';
import { findingRows } from '../../../renderer/parts/finding-rows.ts';
import { reportedVisit, reportFrame, station } from '../../support/reported-visit.ts';

const output = station.ports.find(({ name }) => name === 'forward output');
const view = output === undefined ? null : portView(output, reportedVisit().sweeps, reportFrame());
if (view === null || output?.design === undefined) throw new Error('no view');

it('prints the figures of the station sheet', () => {
  const table = standingTable(view, 'dBmV');
  if (table?.block !== 'table' || view.left?.standing == null) throw new Error('no table');
  const texts = table.rows.map((row) => row.map(({ text }) => text).join(' | '));
  // The page's own table of the same standing: value, what it is good to, and how sure.
  for (const [i, row] of findingRows(view.left.standing, output.design ?? never(), 'dBmV', null).entries()) {
    expect(texts[i]).toContain(row.value);
    expect(texts[i]).toContain(row.goodTo);
    expect(texts[i]).toContain(row.word);
    expect(texts[i]).toContain(row.sure);
  }
});

it('has the line alone where no design is', () => {
  const input = station.ports.find(({ design }) => design === undefined);
  if (input === undefined) throw new Error('no input');
  const sweeps = reportedVisit().sweeps.map((sweep) => ({ ...sweep, portName: input.name }));
  const own = portView(input, sweeps, reportFrame());
  const table = own === null ? null : standingTable(own, 'dBmV');
  expect(table?.block === 'table' ? table.rows.length : 0).toBe(4);
});

it('says a verdict by word and shape', () => {
  expect(verdictWord({ verdict: 'fail', deviationDb: -2 })).toBe('low');
  expect(markOf({ verdict: 'fail', deviationDb: -2 })).toEqual({ verdict: 'fail', pointing: 'down' });
  expect(verdictWord({ verdict: 'undecided', deviationDb: 1 })).toBe('undecided');
});

function never(): never {
  throw new Error('no design');
}
