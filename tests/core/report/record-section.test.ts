import { expect, it } from 'vitest';
import { recordSection, SOURCES } from '../../../core/report/record-section.ts';
import { reportedVisit, reportFrame } from '../../support/reported-visit.ts';

const visit = reportedVisit();

it('lists every sweep with its whole hash, the chain head and the sources of the rules', () => {
  const text = JSON.stringify(recordSection([visit], reportFrame()));
  for (const { sweepId, sha256 } of visit.sweeps) {
    expect(text).toContain(sweepId);
    expect(text).toContain(sha256);
  }
  expect(text).toContain('tamper-evident, not tamper-proof');
  for (const source of SOURCES) expect(text).toContain(source);
});

it('shows voids with their reason, corrections both ways, and says where no chain is', () => {
  const why = { reason: 'other test point', by: 'A. Nilsen', at: '2026-03-03T08:00:00.000Z' };
  const [first, second, ...rest] = visit.sweeps;
  if (first === undefined || second === undefined) throw new Error('no sweeps');
  const sweeps = [
    { ...first, correctedBy: second.sweepId },
    { ...second, corrects: { ...why, sweepId: first.sweepId } },
    ...rest.map((one) => ({ ...one, voided: { ...why, reason: 'the probe was loose' } })),
  ];
  const text = JSON.stringify(recordSection([reportedVisit({ sweeps })], reportFrame({ head: null })));
  expect(text).toContain('counts no more, corrected by');
  expect(text).toContain('other test point (A. Nilsen');
  expect(text).toContain('void: the probe was loose (A. Nilsen, 3');
  expect(text).toContain('keeps no chain');
});
