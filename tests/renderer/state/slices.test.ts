import { describe, expect, it } from 'vitest';
import type { ConnectedMeter } from '../../../core/bridge/records.ts';
import * as selectors from '../../../renderer/state/select.ts';
import { createWorkbenchStore } from '../../../renderer/state/store.ts';
import { sheetOf, station, sweepOf } from '../sheet-records.ts';

const plan = {
  stationId: station.id,
  portName: 'forward output',
  purpose: 'as-found',
  plannedCount: 136,
  lowMhz: 57,
  highMhz: 867,
} as const;
const ended = (over: object = {}) => ({
  sweepId: 'a',
  stationId: station.id,
  state: 'complete' as const,
  readingCount: 136,
  reason: null,
  ...over,
});
const meter: ConnectedMeter = {
  choice: { kind: 'simulated' },
  identity: { maker: 'm', model: 'n', serialNumber: '1', firmware: '1' },
  connectedAt: '2026-11-25T09:00:00.000Z',
};

describe('selectors', () => {
  const open = createWorkbenchStore();
  const { sheet, byId } = sheetOf([sweepOf({ n: 1, offDb: () => 0 })]);
  open.getState().sheetOpening(station.id);
  open.getState().sheetArrived(sheet);
  open.getState().sweepsArrived(Object.values(byId));
  open.getState().meterConnected(meter);

  it.each(Object.entries(selectors))(
    '%s gives the same value twice, on a new and on a full store',
    (_, select) => {
      for (const store of [createWorkbenchStore(), open])
        expect(Object.is(select(store.getState()), select(store.getState()))).toBe(true);
    },
  );

  it('tell what is open', () => {
    expect(selectors.selectVisitIsOpen(open.getState())).toBe(true);
    expect(selectors.selectMeterIsReady(open.getState())).toBe(true);
    expect(selectors.selectStationSheet(open.getState())?.station.name).toBe('07 Mill Lane');
    expect(Object.keys(selectors.selectSweeps(open.getState()))).toHaveLength(1);
  });
});

describe('the run', () => {
  it('goes from starting to idle over running, and ignores the end of another sweep', () => {
    const store = createWorkbenchStore();
    store.getState().runStarting(plan);
    store.getState().runStarted('a');
    store.getState().runEnded(ended({ sweepId: 'b' }));
    expect(store.getState().run).toMatchObject({ at: 'running', sweepId: 'a' });
    store.getState().runEnded(ended());
    expect(store.getState().run).toEqual({ at: 'idle' });
  });

  it('keeps what happened to a sweep that was cut short', () => {
    const store = createWorkbenchStore();
    store.getState().runStarting(plan);
    store.getState().runStarted('a');
    store.getState().runStopping();
    store.getState().runEnded(ended({ state: 'partial', readingCount: 48, reason: 'stopped by hand' }));
    expect(store.getState().run).toMatchObject({
      at: 'cut-short',
      readingCount: 48,
      reason: 'stopped by hand',
    });
  });

  it('does not start what was already forgotten', () => {
    const store = createWorkbenchStore();
    store.getState().runStarted('a');
    store.getState().runStopping();
    expect(store.getState().run).toEqual({ at: 'idle' });
  });
});

describe('the sheet', () => {
  const { sheet, byId } = sheetOf([sweepOf({ n: 1, offDb: () => 0 })]);

  it('opens on the first port with a design, and only for the station that was asked for', () => {
    const store = createWorkbenchStore();
    store.getState().sheetArrived(sheet);
    expect(store.getState().sheet).toEqual({ at: 'none' });
    store.getState().sheetOpening('another');
    store.getState().sheetArrived(sheet);
    expect(store.getState().sheet).toMatchObject({ at: 'opening', stationId: 'another' });
    store.getState().sheetOpening(station.id);
    store.getState().sheetArrived(sheet);
    expect(store.getState().sheet).toMatchObject({ at: 'open', portName: 'forward output' });
  });

  it('keeps port and sweeps when it is renewed, and drops a picked choice with the sweep it belonged to', () => {
    const store = createWorkbenchStore();
    store.getState().sheetOpening(station.id);
    store.getState().sheetArrived(sheet);
    store.getState().sweepsArrived(Object.values(byId));
    store.getState().portChosen('forward input');
    store.getState().choicePicked(1);
    store.getState().sheetArrived({ ...sheet });
    expect(store.getState().sheet).toMatchObject({ at: 'open', portName: 'forward input', picked: 1 });
    expect(Object.keys(selectors.selectSweeps(store.getState()))).toHaveLength(1);
    store.getState().sweepChosen(null);
    expect(store.getState().sheet).toMatchObject({ picked: null });
  });

  it('takes no sweep of another station, and no failure once it is open', () => {
    const store = createWorkbenchStore();
    store.getState().sheetOpening(station.id);
    store.getState().sheetArrived(sheet);
    store.getState().sweepsArrived([sweepOf({ n: 5, offDb: () => 0, over: { stationId: 'elsewhere' } })]);
    store.getState().sheetFailed(station.id, 'late');
    expect(store.getState().sheet).toMatchObject({ at: 'open', sweeps: {} });
  });
});

describe('the meter', () => {
  it('is lost with its reason, is put away without one, and an old end is no news while another connects', () => {
    const store = createWorkbenchStore();
    store.getState().meterConnected(meter);
    store.getState().meterGone('the adapter was unplugged');
    expect(store.getState().meter).toEqual({ at: 'lost', help: 'the adapter was unplugged' });
    store.getState().meterConnecting({ kind: 'simulated' });
    store.getState().meterGone(null);
    expect(store.getState().meter).toMatchObject({ at: 'connecting' });
    store.getState().meterConnected(meter);
    store.getState().meterRefused('late');
    expect(store.getState().meter).toMatchObject({ at: 'connected' });
    store.getState().meterGone(null);
    expect(store.getState().meter).toEqual({ at: 'none' });
  });
});

it('keeps a list of stations that is there when it can not be renewed', () => {
  const store = createWorkbenchStore();
  store.getState().stationsFailed('no archive');
  expect(store.getState().stations).toEqual({ at: 'failed', help: 'no archive' });
  store.getState().stationsListed([]);
  store.getState().stationsFailed('no archive');
  expect(store.getState().stations).toEqual({
    at: 'listed',
    rows: [],
    waiting: { ids: new Set(), of: 0 },
  });
});
