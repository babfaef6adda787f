import { expect, it } from 'vitest';
import { type PeriodStanding, type PeriodVisit, periodBatch } from '../../../core/drift/period-batch.ts';

const standing = (verdict: PeriodStanding['verdict']): PeriodStanding => ({
  sweepId: 's',
  portName: 'forward output',
  atMs: 0,
  verdict,
  headline: '',
  worstDb: 0.2,
  worstMhz: 870,
});
const visit = (startedMs: number, over: Partial<PeriodVisit> = {}): PeriodVisit => ({
  visitId: `visit-${startedMs}`,
  stationId: 'a',
  stationName: 'A',
  operator: '',
  ambientC: null,
  startedMs,
  endedMs: null,
  note: '',
  sweepCount: 2,
  before: null,
  after: null,
  changes: [],
  ...over,
});

it('takes the visits that began in the period, its first moment included and its last not', () => {
  const { visits } = periodBatch([visit(30), visit(10), visit(20), visit(9)], 10, 30);
  expect(visits.map(({ startedMs }) => startedMs)).toEqual([10, 20]);
});
it('counts how the stations were left, and which were put right', () => {
  const { totals } = periodBatch(
    [
      visit(1, { before: standing('fail'), after: standing('pass') }),
      visit(2, { before: standing('pass'), after: standing('pass'), stationId: 'b' }),
      visit(3, { before: standing('pass'), after: standing('fail') }),
      visit(4, { after: standing('undecided') }),
      visit(5, { before: standing('fail') }),
      visit(6, { before: standing('fail'), after: standing(null) }),
    ],
    0,
    100,
  );
  expect(totals).toEqual({
    visits: 6,
    stations: 2,
    sweeps: 12,
    leftPass: 2,
    leftFail: 1,
    leftUndecided: 1,
    notLeft: 2,
    putRight: 1,
  });
});
it('is empty where nobody went', () => {
  expect(periodBatch([], 0, 10)).toMatchObject({ visits: [], totals: { visits: 0, notLeft: 0 } });
});
it('refuses a period that ends before it begins', () => {
  expect(() => periodBatch([], 2, 1)).toThrow(RangeError);
});
