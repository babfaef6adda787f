import { expect, it } from 'vitest';
import { ClientFault } from '../../../core/bridge/client-fault.ts';
import type { ConnectedMeter } from '../../../core/bridge/records.ts';
import { benchOver } from '../bench-over.ts';
import type { Script } from '../scripted-client.ts';
import { installed, sheetOf, station, sweepOf } from '../sheet-records.ts';

const meter: ConnectedMeter = {
  choice: { kind: 'simulated' },
  identity: { maker: 'm', model: 'n', serialNumber: '1', firmware: '1' },
  connectedAt: '2026-11-25T09:00:00.000Z',
};
const order = { portName: 'forward output', purpose: 'as-found', frequenciesMhz: [63, 57] } as const;

const found = sweepOf({ n: 1, offDb: () => -2 });
const opened: Script = {
  'stations.open': () => sheetOf([found]).sheet,
  'sweeps.open': () => found,
  'stations.list': () => ({ stations: [] }),
};

it('loads the demo and connects its meter in one go', async () => {
  const { workbench, store, names } = benchOver({
    'demo.load': () => ({ stationIds: ['a'] }),
    'stations.list': () => ({ stations: [] }),
    'meters.connect': () => meter,
  });
  await workbench.loadDemo();
  expect(names()).toEqual(['demo.load', 'stations.list', 'meters.connect']);
  expect(store.getState().meter).toMatchObject({ at: 'connected' });
  expect(store.getState().busy).toBeNull();
});

it('turns a refusal into one line that says what and where', async () => {
  const { workbench, store } = benchOver({
    'stations.import': () => {
      throw new ClientFault('refused', 'mill.json, ports.0', 'must have a name', 'not-a-station');
    },
  });
  await workbench.importStation('mill.json', '{}');
  expect(store.getState().notice).toMatchObject({
    tone: 'problem',
    text: 'mill.json was not taken in.',
    help: 'mill.json, ports.0: must have a name',
  });
});

it('reads in rising frequency, follows the readings, and renews the sheet at the end', async () => {
  const run = sweepOf({ n: 2, offDb: () => 0, over: { state: 'recording' } });
  const { workbench, store, feed, emit, asked } = benchOver({
    ...opened,
    'sweeps.start': () => ({ sweepId: run.summary.sweepId }),
    'sweeps.open': ({ sweepId }) => (sweepId === run.summary.sweepId ? run : found),
  });
  await workbench.openStation(station.id);
  await workbench.startSweep(order);
  expect(asked.find(({ name }) => name === 'sweeps.start')?.input).toMatchObject({
    frequenciesMhz: [57, 63],
  });
  expect(store.getState().run).toMatchObject({ at: 'running' });
  const [reading] = run.readings;
  if (reading === undefined) throw new Error('the story has readings');
  emit('sweep.reading', { sweepId: run.summary.sweepId, index: 0, plannedCount: 2, reading });
  expect(feed.readings()).toHaveLength(1);
  emit('sweep.ended', {
    sweepId: run.summary.sweepId,
    stationId: station.id,
    state: 'partial',
    readingCount: 1,
    reason: 'the meter was unplugged',
  });
  expect(store.getState().run).toMatchObject({ at: 'cut-short', reason: 'the meter was unplugged' });
});

it('does not wait for the end of a sweep that had ended before its id was known', async () => {
  const quick = sweepOf({ n: 3, offDb: () => 0 });
  const { workbench, store } = benchOver({
    ...opened,
    'sweeps.start': () => ({ sweepId: quick.summary.sweepId }),
    'sweeps.open': ({ sweepId }) => (sweepId === quick.summary.sweepId ? quick : found),
  });
  await workbench.openStation(station.id);
  await workbench.startSweep(order);
  expect(store.getState().run).toEqual({ at: 'idle' });
});

it('goes on after a sweep that was refused', async () => {
  const { workbench, store } = benchOver({
    ...opened,
    'sweeps.start': () => {
      throw new ClientFault('refused', 'no meter', 'connect one', 'no-meter');
    },
  });
  await workbench.openStation(station.id);
  await workbench.startSweep(order);
  expect(store.getState().run).toEqual({ at: 'idle' });
  expect(store.getState().notice).toMatchObject({ help: 'no meter: connect one' });
});

it('finds a sweep that was already running when the page came', async () => {
  const running = sweepOf({ n: 4, offDb: () => 0, over: { state: 'recording', readingCount: 40 } });
  const { workbench, store, feed } = benchOver({
    'stations.open': () => sheetOf([running]).sheet,
    'sweeps.open': () => ({ ...running, readings: running.readings.slice(0, 40) }),
  });
  await workbench.openStation(station.id);
  expect(store.getState().run).toMatchObject({
    at: 'running',
    plan: { plannedCount: 136, lowMhz: 57, highMhz: 870 },
  });
  expect(feed.readings()).toHaveLength(40);
});

it('notes fitted parts with the proposal, and only in an open visit', async () => {
  const change = { position: 'input pad', from: 6, to: 4 };
  const note = {
    sweepId: found.summary.sweepId,
    values: { ...installed, 'input pad': 4 },
    worstBeforeDb: 2,
    worstPredictedDb: 0,
  };
  const { workbench, asked } = benchOver({ ...opened, 'parts.fit': () => ({ fittings: [] }) });
  await workbench.openStation(station.id);
  expect(await workbench.fitParts([change], note)).toBe(true);
  expect(asked.find(({ name }) => name === 'parts.fit')?.input).toMatchObject({
    changes: [change],
    proposal: note,
  });
  const closed = benchOver({ ...opened, 'stations.open': () => sheetOf([found], { openVisit: null }).sheet });
  await closed.workbench.openStation(station.id);
  expect(await closed.workbench.fitParts([change], note)).toBe(false);
});

it('says what a refused meter needs, keeps a lost one as lost, and takes one that came back', async () => {
  const { workbench, store, emit } = benchOver({
    'meters.connect': () => {
      throw new ClientFault('refused', '/dev/ttyUSB9', 'there is no such port', 'no-such-port');
    },
  });
  expect(await workbench.connectMeter({ kind: 'serial', path: '/dev/ttyUSB9', profile: 'scpi' })).toBe(false);
  expect(store.getState().meter).toEqual({ at: 'refused', help: '/dev/ttyUSB9: there is no such port' });
  emit('meter.changed', { meter: null, lost: 'unplugged' });
  expect(store.getState().meter).toEqual({ at: 'lost', help: 'unplugged' });
  emit('meter.changed', { meter, lost: null });
  expect(store.getState().meter).toMatchObject({ at: 'connected' });
});

it('says that readings of a killed program are kept', async () => {
  const { workbench, store } = benchOver({
    'host.describe': () => ({
      version: '0.1.0',
      host: 'memory',
      archivePath: '/data/tiltwright.sqlite',
      recoveredSweeps: [{ sweepId: found.summary.sweepId, stationId: station.id, readingCount: 48 }],
      profiles: [],
    }),
    'meters.current': () => ({ meter }),
    'stations.list': () => ({ stations: [] }),
  });
  await workbench.arrive();
  expect(store.getState().notice?.help).toContain('48 readings');
  expect(store.getState().meter).toMatchObject({ at: 'connected' });
});

it('closes the dialog whose work is done, and no other that the person opened meanwhile', async () => {
  const [visit] = sheetOf([]).sheet.visits;
  if (visit === undefined) throw new Error('the story has a visit');
  const { workbench, store } = benchOver({ ...opened, 'visits.begin': () => visit });
  await workbench.openStation(station.id);
  store.getState().dialogOpened({ open: 'begin-visit' });
  await workbench.beginVisit({ operator: 'Ida', ambientC: null });
  expect(store.getState().dialog).toEqual({ open: 'none' });
  const beginning = workbench.beginVisit({ operator: 'Ida', ambientC: null });
  store.getState().dialogOpened({ open: 'meter' });
  await beginning;
  expect(store.getState().dialog).toEqual({ open: 'meter' });
});
