import { describe, expect, it } from 'vitest';
import { MeterUncertainty } from '../../../core/files/meter-uncertainty.ts';
import { reserveVerdict } from '../../../core/gain-control/reserve-verdict.ts';
import { budgetOf } from '../../../core/uncertainty/budget.ts';
import { reserveSaid, setUpConditions } from '../../../renderer/state/reserve-said.ts';
import type { JudgedBy } from '../../../renderer/state/sheet-view.ts';
import { byReading, exact, newModuleSetUp, oldVisitId, sheetOf, sweepOf, visitId } from '../sheet-records.ts';

const budget = budgetOf({ meter: MeterUncertainty.parse({}), ambientC: null });
const said = (measuredDb: number) =>
  reserveSaid(reserveVerdict(measuredDb, 4, budget)).replaceAll('\u00A0', ' ');

describe('a reserve in one line', () => {
  // u = 0.177 dB, so 95 of 100 times within 0.35 dB; the chances are worked in reserve-verdict.test.ts.
  it.each([
    [4.1, 'Reserve 4.1 ±0.3 dB of 4.0: good, 99 % sure.'],
    [3.5, 'Reserve 3.5 ±0.3 dB of 4.0: undecided, 50 % inside.'],
    [2, 'Reserve 2.0 ±0.3 dB of 4.0: too small, sure.'],
    [6, 'Reserve 6.0 ±0.3 dB of 4.0: too large, sure.'],
  ])('%s dB', (measuredDb, words) => expect(said(measuredDb)).toBe(words));
});

describe('what a set-up is judged with', () => {
  const model = { maker: 'Harbour Works', model: 'Level adapter', serialNumber: '0017', firmware: '1.2' };
  const own = MeterUncertainty.parse({ repeatabilityDb: 0.05 });
  const by: JudgedBy = { ...byReading, settings: { ...exact, sheets: { 'Level adapter': own } } };
  const record = (ofVisit: string) => newModuleSetUp({ visitId: ofVisit });
  const { sheet } = sheetOf([sweepOf({ n: 1, offDb: () => 0, over: { meter: model } })]);
  it('goes by the meter that read the sweeps of its visit, at the temperature of the plan', () => {
    expect(setUpConditions(sheet, record(visitId), by)).toEqual({ meter: own, ambientC: 12 });
  });
  it('goes by the numbers for any meter where none is known', () => {
    expect(setUpConditions(sheet, record(oldVisitId), by).meter).toEqual(exact.meter);
  });
});
