import { describe, expect, it } from 'vitest';
import type { HistorySweep, QualityStation, QualityTrend } from '../../../core/bridge/quality-calls.ts';
import { createWorkbenchStore } from '../../../renderer/state/store.ts';
import { station, sweepOf } from '../sheet-records.ts';

const row = (stationId: string): QualityStation => ({
  stationId,
  name: stationId,
  sweepCount: 0,
  openVisit: false,
  lastVisitAt: null,
  standing: null,
  reserve: null,
});
const trend = (stationId: string): QualityTrend => ({ stationId, leftAsDesigned: null, drift: null });
const now = () => createWorkbenchStore().getState;

describe('the table of all records', () => {
  it('grows page by page, and trends come to it station by station', () => {
    const state = now();
    state().recordsBegun();
    state().recordsCame([row('a')], 2);
    state().recordsCame([row('b')], 2);
    state().trendsCame([trend('b')]);
    expect(state().records.stations.map(({ stationId }) => stationId)).toEqual(['a', 'b']);
    expect(state().records).toMatchObject({ total: 2, trends: { b: { stationId: 'b' } } });
  });
  it('keeps the trends that it has while it is read anew', () => {
    const state = now();
    state().recordsCame([row('a')], 1);
    state().trendsCame([trend('a')]);
    state().recordsReading({ at: 'done' });
    state().recordsBegun();
    expect(state().records).toMatchObject({ stations: [], total: null, reading: { at: 'stations' } });
    expect(Object.keys(state().records.trends)).toEqual(['a']);
  });
  it('is sorted the worst first, anything else from the top, and turned about by a second press', () => {
    const state = now();
    state().sortedBy('worst');
    expect(state().recordsSort).toEqual({ by: 'worst', isDown: true });
    state().sortedBy('worst');
    expect(state().recordsSort).toEqual({ by: 'worst', isDown: false });
    state().sortedBy('trend');
    expect(state().recordsSort).toEqual({ by: 'trend', isDown: false });
  });
});

describe('a history', () => {
  const sweep = sweepOf({ n: 1, offDb: () => 0 });
  const history = {
    station,
    portName: 'forward output',
    portNames: ['forward output'],
    sweeps: [] as HistorySweep[],
    reserves: [],
  };
  it('takes sweeps of its own station only', () => {
    const state = now();
    state().historyBecame({ at: 'open', history, sweeps: {}, compared: null });
    const strange = { ...sweep, summary: { ...sweep.summary, stationId: 'elsewhere', sweepId: 'other' } };
    state().historySweepsCame([sweep, strange]);
    const { history: open } = state();
    expect(open.at === 'open' && Object.keys(open.sweeps)).toEqual([sweep.summary.sweepId]);
  });
  it('takes news only while it is open', () => {
    const state = now();
    state().historySweepsCame([sweep]);
    state().comparedBecame(['a', 'b']);
    expect(state().history).toEqual({ at: 'none' });
    state().historyBecame({ at: 'open', history, sweeps: {}, compared: null });
    state().comparedBecame(['a', 'b']);
    expect(state().history).toMatchObject({ compared: ['a', 'b'] });
  });
  it('remembers which figure is looked at', () => {
    const state = now();
    state().figureChosen('reserve');
    expect(state().figureShown).toBe('reserve');
  });
});

it('a period keeps its days while its visits are read', () => {
  const state = now();
  state().periodBecame({ fromDay: '2026-03-01', toDay: '2026-03-07' });
  state().periodBecame({ found: { at: 'reading' } });
  expect(state().period).toEqual({ fromDay: '2026-03-01', toDay: '2026-03-07', found: { at: 'reading' } });
});
