import { expect, it } from 'vitest';
import { periodBatch } from '../../../core/drift/period-batch.ts';
import { periodReport } from '../../../core/report/period.ts';
import { madeUpHash } from '../../support/reported-visit.ts';

const frame = {
  place: { timeZone: 'UTC', utcOffsetMin: 0 },
  program: '0.1.0',
  madeAt: '2026-04-01T10:00:00.000Z',
  head: { device: 'd', seq: 7, hash: madeUpHash('h') },
  dataSha256: madeUpHash('p'),
};
const at = (day: string) => Date.parse(`${day}T00:00:00.000Z`);
const standing = (verdict: 'pass' | 'fail', worstDb: number) => ({
  ...{ sweepId: 's', portName: 'forward output', atMs: at('2026-03-02'), verdict, headline: '', worstDb },
  worstMhz: 867,
});
const visit = {
  visitId: 'v',
  stationId: 'mill-lane',
  stationName: '07 Mill Lane',
  operator: 'P. Ferreira',
  ambientC: 12,
  startedMs: at('2026-03-02'),
  endedMs: null,
  note: '',
  sweepCount: 2,
  before: standing('fail', -2.14),
  after: standing('pass', 0.42),
  changes: [{ position: 'input pad', fromDb: 6, toDb: 5 }],
};

it('says what the period came to, and each visit with how it was found and left', () => {
  const report = periodReport(periodBatch([visit], at('2026-03-01'), at('2026-04-01')), frame);
  const text = JSON.stringify(report.blocks);
  expect(text).toContain('1\u00A0visit to 1\u00A0station: 1 left good, 1 of them put right');
  expect(text).toContain('\u22122.1 at 867, not good');
  expect(text).toContain('+0.4 at 867, good');
  expect(text).toContain('input pad 6 to 5');
  expect(report.masthead.aside).toEqual(['1\u00A0March 2026', 'to 31\u00A0March 2026']);
});

it('says so where nobody was anywhere', () => {
  const report = periodReport(periodBatch([], at('2026-03-01'), at('2026-04-01')), { ...frame, head: null });
  expect(JSON.stringify(report.blocks)).toContain('No visit began in this period');
});
