import { describe, expect, it } from 'vitest';
import { FIRST_SETTINGS } from '../../../core/bridge/settings-calls.ts';
import type { Truck } from '../../../core/files/truck.ts';
import { fittedTogether } from '../../../renderer/state/fitted-together.ts';
import { predictionOf } from '../../../renderer/state/prediction.ts';
import { type JudgedBy, viewSheet } from '../../../renderer/state/sheet-view.ts';
import { byReading, exact, installed, oldVisitId, sheetOf, sweepOf, visitId } from '../sheet-records.ts';

const viewOf = (
  { sheet, byId }: ReturnType<typeof sheetOf>,
  chosen: string | null = null,
  picked: number | 'recommended' | null = null,
  by: JudgedBy = byReading,
) => {
  const view = viewSheet(sheet, 'forward output', chosen, byId, picked, by);
  if (view === null) throw new Error('no such port');
  return { view, prediction: predictionOf(view, sheet) };
};

it('shows the design alone while nothing was read', () => {
  const { view, prediction } = viewOf(sheetOf([]));
  expect(view.shown).toBeNull();
  expect(view.design?.highDbmv).toBe(46);
  expect(prediction.rows).toBeNull();
});

it('judges the newest sweep at the port, proposes, and predicts what the proposal gives', () => {
  const found = sweepOf({ n: 1, offDb: () => -2 });
  const { view, prediction } = viewOf(sheetOf([found]));
  expect(view.standing?.verdict).toBe('fail');
  expect(view.standing?.levelHigh.valueDbmv).toBeCloseTo(44, 6);
  expect(view.choice?.changes).toEqual([{ position: 'input pad', from: 6, to: 4 }]);
  expect(prediction.open).toBe(true);
  // A pad of 2 dB less is 2 dB more at every frequency (contract, "Loss of a plug-in at f").
  expect(prediction.rows?.[0]?.levelDbmv).toBeCloseTo(36 + (10 * 3) / 816, 6);
});

it('says that parts were changed since, and predicts from what is in now', () => {
  const found = sweepOf({ n: 1, offDb: () => -2 });
  const { view, prediction } = viewOf(sheetOf([found], { pluggedIn: { ...installed, 'input pad': 4 } }));
  expect(view.choice).toBeNull();
  expect(view.changedSince).not.toBeNull();
  expect(prediction).toMatchObject({ open: true });
});

it('holds the sweep as left against the prediction: seated, and not seated', () => {
  const found = sweepOf({ n: 1, offDb: () => -2 });
  const fitted = { ...installed, 'input pad': 4 };
  const left = (offDb: number) =>
    sheetOf([found, sweepOf({ n: 2, offDb: () => offDb, pluggedIn: fitted, over: { purpose: 'as-left' } })], {
      pluggedIn: fitted,
    });
  const seated = viewOf(left(0.2)).view;
  expect(seated.before?.summary.sweepId).toBe(found.summary.sweepId);
  expect(seated.held).toMatchObject({ agrees: true });
  expect(seated.choice?.changes).toEqual([]);
  const loose = viewOf(left(-1.4)).view;
  expect(loose.held?.agrees).toBe(false);
  expect(loose.held?.worstDb).toBeCloseTo(-1.4, 6);
});

it('puts the cause first where only the shape is wrong, until a choice is picked by hand', () => {
  const dip = sweepOf({ n: 1, offDb: (f) => (Math.abs(f - 609) <= 15 ? -5 : 0) });
  const state = sheetOf([dip]);
  const { view, prediction } = viewOf(state);
  expect(view.causeFirst).toBe(true);
  expect(view.choice).toBeNull();
  expect(prediction.rows).toBeNull();
  const { view: picked } = viewOf(state, null, 'recommended');
  expect(picked.causeFirst).toBe(false);
  expect(picked.choice?.changes.length).toBeGreaterThan(0);
});

it('gives an older or a partial sweep no proposal', () => {
  const found = sweepOf({ n: 1, offDb: () => -2 });
  const newer = sweepOf({ n: 2, offDb: () => -2 });
  expect(viewOf(sheetOf([found, newer]), found.summary.sweepId).view).toMatchObject({
    isNewest: false,
    proposal: null,
  });
  const partial = sweepOf({ n: 3, offDb: () => -2, over: { state: 'partial', endReason: 'meter lost' } });
  expect(viewOf(sheetOf([found, partial])).view).toMatchObject({ isNewest: true, proposal: null });
});

it('knows a sweep of an earlier visit, and takes no earlier visit as the one before', () => {
  const old = sweepOf({ n: 1, offDb: () => -2, over: { visitId: oldVisitId } });
  expect(viewOf(sheetOf([old])).view.ofThisVisit).toBe(false);
  const now = sweepOf({ n: 2, offDb: () => 0, pluggedIn: { ...installed, 'input pad': 4 } });
  expect(viewOf(sheetOf([old, now])).view.before).toBeNull();
});

it('leaves out what is still recording or empty', () => {
  const running = sweepOf({ n: 2, offDb: () => 0, over: { state: 'recording' } });
  const empty = sweepOf({ n: 3, offDb: () => 0, over: { state: 'partial', readingCount: 0 } });
  expect(viewOf(sheetOf([running, empty])).view.shown).toBeNull();
});

it('gives a port without a design its line, and no verdict', () => {
  const input = sweepOf({ n: 1, offDb: () => -20, over: { portName: 'forward input' } });
  const { sheet, byId } = sheetOf([input]);
  const view = viewSheet(sheet, 'forward input', null, byId, null, byReading);
  expect(view?.standing).toBeNull();
  expect(view?.fit?.tiltDb).toBeCloseTo((10 * 810) / 816, 6);
  expect(viewSheet(sheet, 'no such port', null, byId, null, byReading)).toBeNull();
});

it('keeps the fittings of one proposal together', () => {
  const fitting = (n: number, proposalId: string | null) => ({
    fittingId: `f${n}`,
    visitId,
    at: '2026-11-25T09:20:00.000Z',
    change: { position: 'input pad', from: 6, to: n },
    proposalId,
  });
  const groups = fittedTogether([fitting(1, 'p'), fitting(2, 'p'), fitting(3, null)]);
  expect(groups.map(({ fittings }) => fittings.length)).toEqual([2, 1]);
});

describe('what a sheet is judged by', () => {
  const meter = { ...FIRST_SETTINGS.meter };
  const by = (over: Partial<JudgedBy>): JudgedBy => ({ ...byReading, ...over });

  it('says undecided with its chance where the meter can not tell', () => {
    const near = sheetOf([sweepOf({ n: 1, offDb: () => 0.8 })]);
    const { view } = viewOf(near, null, null, by({ settings: { ...exact, meter } }));
    expect(view.standing?.verdict).toBe('undecided');
    expect(view.standing?.worst.probability).toBeGreaterThan(0.5);
    expect(view.standing?.worst.probability).toBeLessThan(0.95);
    expect(view.applied?.source).toEqual({ from: 'defaults' });
    expect(viewOf(near).view.standing?.verdict).toBe('pass');
  });

  it('compares each channel with the target of its own kind, as the line-up says', () => {
    const lineUp = Array.from({ length: 136 }, (_, i) => ({
      channelLabel: String(i),
      frequencyMhz: 57 + 6 * i,
      kind: 'qam' as const,
      qamOrder: i < 70 ? 64 : 256,
      widthMhz: 6,
      offsetDb: i < 70 ? -10 : -6,
    }));
    const carried = sheetOf([sweepOf({ n: 1, offDb: (f) => (f < 57 + 6 * 70 ? -10 : -6) })]);
    expect(viewOf(carried).view.standing?.verdict).toBe('fail');
    const notes = { format: 'tiltwright-station-notes/1' as const, lineUp };
    const { view } = viewOf(carried, null, null, by({ notes }));
    expect(view.standing?.verdict).toBe('pass');
    expect(view.targets?.get(57)).toMatchObject({ signal: '64-QAM at -10 dB' });
    expect(view.targets?.get(57)?.deviationDb).toBeCloseTo(0, 9);
    expect(view.choice?.changes).toEqual([]);
  });

  it('proposes nothing that is not in the truck', () => {
    const low = sheetOf([sweepOf({ n: 1, offDb: () => -2 })]);
    const truck = (valueDb: number): Truck => ({
      format: 'tiltwright-truck/1',
      parts: [{ kind: 'pad', valueDb, count: 1 }],
    });
    expect(viewOf(low, null, null, by({ truck: truck(4) })).view.choice?.changes).toEqual([
      { position: 'input pad', from: 6, to: 4 },
    ]);
    expect(viewOf(low, null, null, by({ truck: truck(5) })).view.choice?.changes).toEqual([
      { position: 'input pad', from: 6, to: 5 },
    ]);
    expect(viewOf(low, null, null, by({ truck: truck(12) })).view.choice?.changes).toEqual([]);
  });

  it('proposes trims once no plug-in is left to change, and predicts them', () => {
    const notes = {
      format: 'tiltwright-station-notes/1' as const,
      trims: [
        { name: 'output gain', kind: 'gain' as const, rangeDb: [-2, 2] as [number, number], atMhz: 870 },
      ],
    };
    const high = sheetOf([sweepOf({ n: 1, offDb: () => 0.6 })]);
    const { view, prediction } = viewOf(high, null, null, by({ notes }));
    expect(view.choice?.changes).toEqual([]);
    expect(view.choice?.withTrims?.moves[0]?.text).toBe('turn down 0.6 dB at 870 MHz');
    expect(prediction.open).toBe(true);
    expect(prediction.rows?.[0]?.levelDbmv).toBeCloseTo(36 + (10 * 3) / 816, 6);
  });

  it('takes a sweep with the trims turned for no parts that are not seated', () => {
    const fitted = { ...installed, 'input pad': 4 };
    const left = (n: number, offDb: number) =>
      sweepOf({ n, offDb: () => offDb, pluggedIn: fitted, over: { purpose: 'as-left' } });
    const turned = sheetOf([sweepOf({ n: 1, offDb: () => -2 }), left(2, 0.1), left(3, 0.9)], {
      pluggedIn: fitted,
    });
    expect(viewOf(turned).view.held?.agrees).toBe(false);
    const notes = {
      format: 'tiltwright-station-notes/1' as const,
      trims: [
        { name: 'output gain', kind: 'gain' as const, rangeDb: [-2, 2] as [number, number], atMhz: 870 },
      ],
    };
    expect(viewOf(turned, null, null, by({ notes })).view.held).toBeNull();
  });

  it('holds the sweep after turned trims against what the turns were to give, and only the first one', () => {
    const [found, after] = [sweepOf({ n: 1, offDb: () => 0.6 }), sweepOf({ n: 2, offDb: () => 0.05 })];
    const at = (summary: typeof found.summary, laterMs: number) =>
      new Date(Date.parse(summary.startedAt) + laterMs).toISOString();
    const turn = {
      turnId: found.summary.sweepId,
      visitId,
      sweepId: found.summary.sweepId,
      portName: 'forward output',
      at: at(found.summary, 1000),
      turn: { name: 'output gain', kind: 'gain' as const, atMhz: 870, byDb: -0.6 },
    };
    const { view, prediction } = viewOf(sheetOf([found, after], { turns: [turn] }));
    // 0.6 dB down on 0.6 dB high comes to the design; it was read 0.05 dB above that.
    expect(view.held).toMatchObject({ agrees: true, after: 'trims' });
    expect(view.held?.worstDb).toBeCloseTo(0.05, 6);
    expect(view.before?.summary.sweepId).toBe(found.summary.sweepId);
    expect(prediction.rows?.[0]?.levelDbmv).toBeCloseTo(36 + (10 * 3) / 816, 6);
    const wrong = sweepOf({ n: 2, offDb: () => 1.2 });
    expect(viewOf(sheetOf([found, wrong], { turns: [turn] })).view.held).toMatchObject({ agrees: false });
    const third = sweepOf({ n: 3, offDb: () => 0.05 });
    expect(viewOf(sheetOf([found, after, third], { turns: [turn] })).view.held).toBeNull();
  });
});

it('proposes from a sweep of before a position was described: what is in it is what the design says', () => {
  const found = sweepOf({ n: 1, offDb: () => -2, pluggedIn: { 'input pad': 6, 'no more there': 9 } });
  const { view, prediction } = viewOf(sheetOf([found]));
  // The equalizer of 8 was in all the time; only nobody had said so.
  expect(view.changedSince).toBeNull();
  expect(view.choice?.changes).toEqual([{ position: 'input pad', from: 6, to: 4 }]);
  expect(prediction.rows?.[0]?.levelDbmv).toBeCloseTo(36 + (10 * 3) / 816, 6);
});
