import { expect, it } from 'vitest';
import { historyReport } from '../../../core/report/history.ts';
import { reportedVisit, reportFrame } from '../../support/reported-visit.ts';

it('has every visit, how each port was found and left, and what was changed', () => {
  const earlier = reportedVisit({
    startedAt: '2025-03-02T09:00:00.000Z',
    fittings: [],
    turns: [
      {
        ...{ at: '2025-03-02T09:10:00.000Z', portName: 'forward output', trim: 'output slope' },
        ...{ kind: 'slope', atMhz: 54, byDb: 0.4 },
      },
    ],
    note: 'Looked only.',
  });
  const report = historyReport([earlier, reportedVisit()], reportFrame());
  const text = JSON.stringify(report.blocks);
  expect(report.masthead.aside[0]).toBe('2\u00A0visits');
  expect(text).toContain('input pad 12 to 10');
  expect(text).toMatch(/output slope turned \+0\.4.dB at 54.MHz/);
  expect(text).toContain('Looked only.');
  expect(text).toContain('Forward output');
  expect(text).toContain('Return output');
  expect(report.blocks[0]).toMatchObject({ block: 'finding', mark: { verdict: 'pass' } });
});

it('says what to do where nobody was', () => {
  expect(JSON.stringify(historyReport([], reportFrame()).blocks)).toContain('begin a visit');
});
