import { expect, it } from 'vitest';
import { standingAgainstDesign } from '../../../core/line/standing.ts';
import { judgedSweep, lastOf, portView } from '../../../core/report/port-view.ts';
import { reportedVisit, reportFrame, station } from '../../support/reported-visit.ts';

const visit = reportedVisit();
const frame = reportFrame();
const port = station.ports.find(({ name }) => name === 'forward output');
if (port === undefined) throw new Error('no forward output');

it('takes the first sweep that counts as found, and the last as left', () => {
  const view = portView(port, visit.sweeps, frame);
  expect(view?.found.sweep.sweepId).toBe(visit.sweeps[1]?.sweepId);
  expect(view?.left?.sweep.sweepId).toBe(visit.sweeps[2]?.sweepId);
  expect(view === null ? null : lastOf(view).standing?.verdict).toBe('pass');
});

it('leaves out what is void, and what another sweep says right', () => {
  const corrected = visit.sweeps.map((sweep, i) => (i === 2 ? { ...sweep, correctedBy: 'another' } : sweep));
  expect(portView(port, corrected, frame)?.left).toBeNull();
  const allVoid = visit.sweeps.map((sweep) => ({ ...sweep, voided: { reason: 'x', by: 'y', at: '' } }));
  expect(portView(port, allVoid, frame)).toBeNull();
});

it('judges by the same function as the station sheet', () => {
  const [, found] = visit.sweeps;
  if (found === undefined || port.design === undefined) throw new Error('no sweep');
  const own = standingAgainstDesign(found.rows, port.design, { uncertainty: found.conditions, lineUp: null });
  expect(judgedSweep(found, null).standing).toEqual(own.ok ? own.value : null);
});

it('holds the sweep after the parts against what they were to give', () => {
  expect(portView(port, visit.sweeps, { ...frame, trims: [] })?.held?.agrees).toBe(true);
  const off = visit.sweeps.map((sweep, i) =>
    i === 2
      ? { ...sweep, rows: sweep.rows.map((row) => ({ ...row, levelDbmv: (row.levelDbmv ?? 0) - 3 })) }
      : sweep,
  );
  const held = portView(port, off, { ...frame, trims: [] })?.held;
  expect(held?.agrees).toBe(false);
  expect(held?.meanDb).toBeCloseTo(-3, 0);
});
