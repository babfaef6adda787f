import { setImmediate as turn } from 'node:timers/promises';
import { describe, expect, it, onTestFinished } from 'vitest';
import { type CallName, calls, events, type Input, type Output } from '../../core/bridge/contract.ts';
import { dispatch } from '../../core/bridge/dispatch.ts';
import type { Reply } from '../../core/bridge/frames.ts';
import { quillmere } from '../../core/simulate/quillmere.ts';
import { createBackend } from '../../electron/backend/backend.ts';
import { MeterFault } from '../../electron/backend/meters/meter-shop.ts';
import { type Sent, silentLog, stationFile, throwAwayFolder } from '../support/archive.ts';
import { createClock, createIds } from '../support/clock.ts';
import { createFakeMeterShop, type FakeMeterScript } from '../support/fake-meter.ts';

/** A whole backend, asked through the one door of the bridge, so that every answer is held against the contract. */
async function backendOver(
  folder: string,
  script: Partial<FakeMeterScript> = {},
  newId: () => string = createIds(),
) {
  const clock = createClock();
  const sent: Sent[] = [];
  const faults: unknown[] = [];
  const shop = createFakeMeterShop({ now: clock.now, ...script });
  const backend = await createBackend({
    dataDir: folder,
    host: 'memory',
    version: '0.0.0-test',
    meters: shop,
    emit: (name, data) => {
      sent.push({ name, data: events[name].parse(data) } as Sent);
    },
    now: clock.now,
    newId,
    log: silentLog,
  });
  onTestFinished(() => backend.close());
  const ask = (name: string, input: unknown): Promise<Reply> =>
    dispatch(backend.handlers, name, input, new AbortController().signal, (_where, fault) =>
      faults.push(fault),
    );
  const call = async <N extends CallName>(name: N, input: Input<N>): Promise<Output<N>> => {
    const reply = await ask(name, input);
    if (!reply.ok) throw new Error(`${name}: ${JSON.stringify(reply)}`);
    return calls[name].out.parse(reply.value) as Output<N>;
  };
  const until = async (name: Sent['name']): Promise<void> => {
    while (!sent.some((event) => event.name === name)) await turn();
  };
  return { backend, call, ask, sent, faults, shop, clock, until };
}

const frequenciesMhz = [54, 120, 330, 550, 700, 869.5];
const begin = { stationId: 'slipway', operator: 'M. Reed', ambientC: -3.5, cautionsRead: true } as const;

it('joins every call of the contract, and none besides', async () => {
  const { backend } = await backendOver(throwAwayFolder());
  expect(Object.keys(backend.handlers).sort()).toEqual(Object.keys(calls).sort());
});

it('walks the main job through every call, and finds all of it after a restart', async () => {
  const folder = throwAwayFolder();
  const newId = createIds();
  const first = await backendOver(folder, { levelDbmv: (mhz) => 14 + mhz / 100 }, newId);
  const { call, sent, shop, until, clock } = first;

  expect(await call('host.describe', {})).toMatchObject({
    version: '0.0.0-test',
    host: 'memory',
    recoveredSweeps: [],
    profiles: [{ name: 'scripted', title: 'A meter that reads from a script' }],
  });
  expect(await call('stations.import', { fileName: 's.json', text: stationFile() })).toEqual({
    stationId: 'slipway',
    revision: 1,
  });
  const { stations: fresh } = await call('stations.list', {});
  expect(fresh).toEqual([
    { stationId: 'slipway', name: 'Slipway 2', revision: 1, sweepCount: 0, openVisit: false, standing: null },
  ]);

  expect((await call('meters.find', {})).ports).toHaveLength(1);
  expect(await call('meters.current', {})).toEqual({ meter: null });
  const meter = await call('meters.connect', { kind: 'simulated' });
  expect(await call('meters.current', {})).toEqual({ meter });

  const visit = await call('visits.begin', begin);
  expect(visit).toMatchObject({ operator: 'M. Reed', ambientC: -3.5, endedAt: null });
  const { sweepId } = await call('sweeps.start', {
    visitId: visit.visitId,
    portName: 'forward output',
    purpose: 'as-found',
    frequenciesMhz,
  });
  await until('sweep.ended');
  expect(shop.connected[0]?.probes).toMatchObject([
    { portName: 'forward output', pluggedIn: { 'input pad': 6, 'input equalizer': 8 }, ambientC: -3.5 },
  ]);
  const sweep = await call('sweeps.open', { sweepId });
  expect(sweep.summary).toMatchObject({
    state: 'complete',
    readingCount: 6,
    plannedCount: 6,
    testPointLossDb: 20,
    endReason: null,
    meter: meter.identity,
    pluggedIn: { 'input pad': 6, 'input equalizer': 8 },
  });
  // What was told as an event is what was kept, reading by reading.
  expect(sent.filter(({ name }) => name === 'sweep.reading').map(({ data }) => data)).toMatchObject(
    sweep.readings.map((reading, index) => ({ sweepId, index, plannedCount: 6, reading })),
  );
  expect(sweep.readings.map(({ frequencyMhz }) => frequencyMhz)).toEqual(frequenciesMhz);
  expect(sweep.readings.at(-1)?.meterDbmv).toBe(22.695);

  clock.forward(60_000);
  const { fittings } = await call('parts.fit', {
    visitId: visit.visitId,
    changes: [{ position: 'input pad', from: 6, to: 3 }],
    proposal: {
      sweepId,
      values: { 'input pad': 3, 'input equalizer': 8 },
      worstBeforeDb: 3.2,
      worstPredictedDb: 0.4,
    },
  });
  expect(fittings).toMatchObject([
    { change: { position: 'input pad', from: 6, to: 3 }, at: '2026-03-02T08:01:00.000Z' },
  ]);

  const file = await call('sweeps.export', { sweepId });
  expect(file.fileName).toBe('Slipway-2-forward-output-as-found-2026-03-02-0800Z.csv');
  // 869.5 MHz: 22.695 dBmV at the test point, 20 dB more at the port.
  expect(file.text).toContain('869.5,42.695,analog');
  const imported = await call('sweeps.import', {
    visitId: visit.visitId,
    portName: 'forward output',
    purpose: 'as-left',
    fileName: file.fileName,
    text: file.text,
    testPointLossDb: 0,
  });
  expect(imported.left).toEqual([]);
  expect((await call('sweeps.open', { sweepId: imported.sweepId })).summary).toMatchObject({
    source: 'file',
    state: 'complete',
    pluggedIn: { 'input pad': 3, 'input equalizer': 8 },
  });
  expect(await call('sweeps.stop', { sweepId })).toEqual({});

  const exported = await call('stations.export', { stationId: 'slipway' });
  // The pad was changed since the design was written; the file says what is in now.
  expect(JSON.parse(exported.text).positions[0]).toMatchObject({ name: 'input pad', installed: 3 });
  expect(await call('stations.import', exported)).toEqual({ stationId: 'slipway', revision: 2 });
  expect(await call('stations.import', exported)).toEqual({ stationId: 'slipway', revision: 2 });
  await call('visits.end', { visitId: visit.visitId, note: 'pad changed' });
  await call('meters.disconnect', {});
  expect(shop.connected[0]?.closed()).toBe(true);
  const list = await call('stations.list', {});
  const sheet = await call('stations.open', { stationId: 'slipway' });
  expect(sheet.pluggedIn).toEqual({ 'input pad': 3, 'input equalizer': 8 });
  expect(sheet.proposals[0]?.proposalId).toBe(sheet.fittings[0]?.proposalId);
  expect(sheet.sweeps.map((summary) => summary.sweepId)).toEqual([imported.sweepId, sweepId]);
  expect(sheet.visits).toMatchObject([{ note: 'pad changed', endedAt: '2026-03-02T08:01:00.000Z' }]);
  expect(first.faults).toEqual([]);
  await first.backend.close();

  const second = await backendOver(folder, {}, newId);
  expect(await second.call('stations.open', { stationId: 'slipway' })).toEqual(sheet);
  expect(await second.call('stations.list', {})).toEqual(list);
  expect(await second.call('sweeps.open', { sweepId })).toEqual(sweep);
});

it('loads the demo once, however often it is asked', async () => {
  const { call } = await backendOver(throwAwayFolder());
  const { stationIds } = await call('demo.load', {});
  expect(stationIds).toEqual(quillmere.map(({ station }) => station.id));
  const before = await call('stations.list', {});
  await call('demo.load', {});
  expect(await call('stations.list', {})).toEqual(before);
  expect(before.stations.every(({ revision }) => revision === 1)).toBe(true);
});

it('leaves a demo station as the technician made it', async () => {
  const { call } = await backendOver(throwAwayFolder());
  await call('demo.load', {});
  const [demo] = quillmere;
  if (demo === undefined) throw new Error('no demo');
  const own = JSON.stringify({ ...demo.station, name: 'My own name' });
  expect((await call('stations.import', { fileName: 'own.json', text: own })).revision).toBe(2);
  await call('demo.load', {});
  expect(await call('stations.open', { stationId: demo.station.id })).toMatchObject({
    revision: 2,
    station: { name: 'My own name' },
  });
});

describe('a mistake is answered with what, where and what would help', () => {
  const refusals: readonly (readonly [CallName, Readonly<Record<string, unknown>>, string])[] = [
    ['stations.open', { stationId: 'nowhere' }, 'no-such-station'],
    ['stations.export', { stationId: 'nowhere' }, 'no-such-station'],
    ['stations.import', { fileName: 'x.json', text: '{' }, 'not-json'],
    ['stations.import', { fileName: 'x.json', text: stationFile({ surprise: 1 }) }, 'not-a-station'],
    ['visits.begin', { ...begin, stationId: 'nowhere' }, 'no-such-station'],
    ['visits.end', { visitId: '00000000-0000-4000-8000-000000000999', note: '' }, 'no-such-visit'],
    ['sweeps.open', { sweepId: '00000000-0000-4000-8000-000000000999' }, 'no-such-sweep'],
    ['sweeps.stop', { sweepId: '00000000-0000-4000-8000-000000000999' }, 'no-such-sweep'],
    ['sweeps.export', { sweepId: '00000000-0000-4000-8000-000000000999' }, 'no-such-sweep'],
  ];
  it.each(refusals)('%s of %o: %s', async (name, input, code) => {
    const { ask, faults } = await backendOver(throwAwayFolder());
    const reply = await ask(name, input);
    expect(reply).toMatchObject({ ok: false, code: 'refused', refusal: { code } });
    expect(faults).toEqual([]);
  });

  it('a meter that does not answer', async () => {
    const { ask, shop, call } = await backendOver(throwAwayFolder());
    shop.refuseNext(new MeterFault('no-permission', '/dev/ttyUSB0', 'join the group that may use it'));
    expect(
      await ask('meters.connect', { kind: 'serial', path: '/dev/ttyUSB0', profile: 'scripted' }),
    ).toEqual({
      ok: false,
      code: 'refused',
      refusal: { code: 'no-permission', where: '/dev/ttyUSB0', help: 'join the group that may use it' },
    });
    expect(await call('meters.current', {})).toEqual({ meter: null });
  });
});

it('ends a running sweep as partial when it is closed, and may be closed twice', async () => {
  const folder = throwAwayFolder();
  const newId = createIds();
  const { backend, call, shop, sent } = await backendOver(folder, { stepped: true }, newId);
  await call('stations.import', { fileName: 's.json', text: stationFile() });
  await call('meters.connect', { kind: 'simulated' });
  const { visitId } = await call('visits.begin', begin);
  const { sweepId } = await call('sweeps.start', {
    visitId,
    portName: 'forward output',
    purpose: 'check',
    frequenciesMhz,
  });
  shop.connected[0]?.release(2);
  while (sent.filter(({ name }) => name === 'sweep.reading').length < 2) await turn();
  await Promise.all([backend.close(), backend.close()]);
  expect(sent.at(-1)).toMatchObject({
    name: 'sweep.ended',
    data: { sweepId, state: 'partial', readingCount: 2 },
  });
  expect(shop.connected[0]?.closed()).toBe(true);

  const again = await backendOver(folder, {}, newId);
  expect((await again.call('host.describe', {})).recoveredSweeps).toEqual([]);
  expect((await again.call('sweeps.open', { sweepId })).summary).toMatchObject({
    state: 'partial',
    readingCount: 2,
    endReason: expect.stringContaining('closed'),
  });
});
