// @vitest-environment jsdom
import { act, fireEvent, screen, waitFor, within } from '@testing-library/react';
import { expect, it } from 'vitest';
import type { ConnectedMeter, StationSheet, Sweep } from '../../../core/bridge/records.ts';
import { FIRST_SETTINGS } from '../../../core/bridge/settings-calls.ts';
import type { Script } from '../scripted-client.ts';
import { installed, neverRead, sheetOf, station, sweepFrom, sweepOf, visitId } from '../sheet-records.ts';
import { press, showApp } from '../shown-app.tsx';

const meter: ConnectedMeter = {
  choice: { kind: 'simulated' },
  identity: { maker: 'Quillmere', model: 'Bench meter', serialNumber: '1', firmware: '1' },
  connectedAt: '2026-11-25T09:00:00.000Z',
};
const row = neverRead(station.id, station.name);

/** A host of one station, as the archive would keep it. */
async function host(start: Readonly<{ sweeps?: readonly Sweep[]; over?: Partial<StationSheet> }> = {}) {
  const state = { listed: false, ...sheetOf(start.sweeps ?? [], start.over) };
  const script: Script = {
    'settings.read': () => ({ settings: FIRST_SETTINGS, revision: 1, changedAt: null }),
    'meters.connect': () => meter,
    'stations.list': () => ({ stations: state.listed ? [row] : [] }),
    'demo.load': () => {
      state.listed = true;
      return { stationIds: [station.id] };
    },
    'stations.open': () => state.sheet,
    'sweeps.open': sweepFrom(state),
    'visits.begin': (input) => {
      const open = sheetOf([]).sheet.openVisit;
      if (open === null) throw new Error('the story has a visit');
      state.sheet = {
        ...state.sheet,
        openVisit: { ...open, operator: input.operator, ambientC: input.ambientC },
      };
      return open;
    },
    'parts.fit': ({ changes }) => {
      const fitted = Object.fromEntries(changes.map(({ position, to }) => [position, to]));
      state.sheet = { ...state.sheet, pluggedIn: { ...state.sheet.pluggedIn, ...fitted } };
      return { fittings: [] };
    },
    'sweeps.start': () => {
      const running = sweepOf({ n: 50, offDb: () => 0, over: { state: 'recording' } });
      state.byId = { ...state.byId, [running.summary.sweepId]: running };
      return { sweepId: running.summary.sweepId };
    },
  };
  return await showApp(script);
}

it('brings a newcomer to the first reading in four presses: demo, station, visit, read', async () => {
  const { inputOf, store } = await host({ over: { openVisit: null } });
  await press(/Try it/);
  const listed = await screen.findByRole('row', { name: /Mill Lane/ });
  await act(async () => {
    fireEvent.click(listed);
  });
  expect(screen.getByText(/60 or 90 V AC/)).toBeDefined();
  expect(screen.getByText(/Laser light there is invisible/)).toBeDefined();
  expect(screen.getByText(/leak RF into aeronautical bands/)).toBeDefined();
  expect(screen.getByText(/advises on levels only/)).toBeDefined();
  await press(/Read them, begin the visit/);
  expect(inputOf('visits.begin')).toMatchObject({ cautionsRead: true, ambientC: null });
  await press(/^Read forward output/);
  expect(inputOf('sweeps.start')).toMatchObject({ portName: 'forward output', purpose: 'as-found' });
  await waitFor(() => expect(store.getState().run.at).toBe('running'));
  expect(screen.getByRole('button', { name: 'Stop' })).toBeDefined();
});

it('reads each channel as often as was chosen, and shows the time left as the host reckons it', async () => {
  const { workbench, inputOf, store, emit } = await host({ over: {} });
  await act(() => workbench.openStation(station.id));
  await act(() => workbench.connectMeter({ kind: 'simulated' }).then(() => {}));
  const choice = within(screen.getByRole('radiogroup', { name: 'Each channel' }));
  expect(choice.getByRole('radio', { name: 'Read once' }).getAttribute('aria-checked')).toBe('true');
  await act(async () => {
    fireEvent.click(choice.getByRole('radio', { name: 'Mean of 4' }));
  });
  await press(/^Read forward output/);
  expect(inputOf('sweeps.start')).toMatchObject({ repeats: 4 });
  await waitFor(() => expect(store.getState().run.at).toBe('running'));
  expect(screen.getByText(/each the mean of 4/)).toBeDefined();
  expect(screen.queryByText(/left$/)).toBeNull();
  const { run } = store.getState();
  if (run.at !== 'running') throw new Error('it reads');
  const reading = { frequencyMhz: 57, meterDbmv: 20, kind: null, takenAt: '2026-11-25T09:00:00.000Z' };
  const event = { sweepId: run.sweepId, index: 0, plannedCount: 9, reading };
  await act(async () => emit('sweep.reading', { ...event, leftMs: 83_000 }));
  expect((await screen.findByText(/^about .* left$/)).textContent?.replace(/\s/g, ' ')).toBe(
    'about 1 min 23 s left',
  );
});

it('says what to change, and with one press notes the parts and reads again as left', async () => {
  const found = sweepOf({ n: 1, offDb: () => -2 });
  const { workbench, inputOf, store } = await host({ sweeps: [found] });
  await act(() => workbench.openStation(station.id));
  await act(() => workbench.connectMeter({ kind: 'simulated' }).then(() => {}));
  expect(screen.getByRole('heading', { level: 1 }).textContent).toContain('2.0 dB low');
  expect(screen.getByLabelText('Input pad: replace 6 with 4')).toBeDefined();
  await press(/Parts fitted, read again/);
  expect(inputOf('parts.fit')).toMatchObject({
    visitId,
    changes: [{ position: 'input pad', from: 6, to: 4 }],
    proposal: { sweepId: found.summary.sweepId },
  });
  await waitFor(() => expect(store.getState().run.at).toBe('running'));
  expect(inputOf('sweeps.start')).toMatchObject({ purpose: 'as-left' });
});

it('is calm when there is nothing to change', async () => {
  const { workbench } = await host({ sweeps: [sweepOf({ n: 1, offDb: () => 0.2 })] });
  await act(() => workbench.openStation(station.id));
  expect(screen.getByText(/Nothing to change/)).toBeDefined();
  expect(screen.queryByRole('button', { name: /Parts fitted/ })).toBeNull();
});

it('says that a new sweep is not as predicted, by how much and where', async () => {
  const fitted = { ...installed, 'input pad': 4 };
  const { workbench } = await host({
    sweeps: [
      sweepOf({ n: 1, offDb: () => -2 }),
      sweepOf({ n: 2, offDb: () => -2, pluggedIn: fitted, over: { purpose: 'as-left' } }),
    ],
    over: { pluggedIn: fitted },
  });
  await act(() => workbench.openStation(station.id));
  expect(screen.getByRole('alert').textContent?.replaceAll('\u00A0', ' ')).toMatch(
    /Not as predicted: 2\.0 dB low at \d+ MHz\..*not be what its label says, or not seated/,
  );
});

it('goes on after a lost meter: says what happened, what is kept, and offers the meter again', async () => {
  const cut = sweepOf({
    n: 1,
    offDb: () => 0,
    over: { state: 'partial', readingCount: 48, endReason: 'the adapter was unplugged: plug it in again' },
  });
  const { workbench, emit } = await host({ sweeps: [cut] });
  await act(() => workbench.openStation(station.id));
  await act(async () => emit('meter.changed', { meter: null, lost: 'the adapter was unplugged' }));
  expect(screen.getByRole('heading', { level: 1 }).textContent).toBe('Cut short after 48 of 136');
  expect(screen.getByText(/The adapter was unplugged: plug it in again/)).toBeDefined();
  expect(screen.getByRole('button', { name: /Connect the meter again/ })).toBeDefined();
  expect(screen.getByRole('button', { name: /Meter lost/ })).toBeDefined();
});

it('gives the sweep as a table of every channel with level, design and deviation', async () => {
  const { workbench } = await host({ sweeps: [sweepOf({ n: 1, offDb: () => -2 })] });
  await act(() => workbench.openStation(station.id));
  await act(async () => {
    fireEvent.click(screen.getByRole('radio', { name: 'Table' }));
  });
  const first = screen.getByRole('row', { name: '57' });
  expect(first.textContent).toContain('5734.036.0\u22122.0 low');
  expect(screen.getAllByRole('row').length).toBeGreaterThan(136);
});
