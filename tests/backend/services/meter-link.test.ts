import { readFileSync } from 'node:fs';
import { expect, it, onTestFinished } from 'vitest';
import type { FoundPort } from '../../../core/bridge/records.ts';
import { createHandlers } from '../../../electron/backend/handlers.ts';
import { createMeterShop, type ShopParts } from '../../../electron/backend/meters/connect.ts';
import { createLineLink } from '../../../electron/backend/meters/lines-over-bytes.ts';
import { LineInstrument } from '../../../electron/backend/meters/simulated/line-instrument.ts';
import { wireToInstrument } from '../../../electron/backend/meters/simulated/link.ts';
import { lookInto, stationFile, testParts, throwAwayFolder } from '../../support/archive.ts';
import { soon } from '../../support/soon.ts';
import { joined, refusalOf } from './joined.ts';

const signal = new AbortController().signal;

/** All services over a meter that speaks the line protocol, on a port that is named in `ports`. */
async function bench(ports: FoundPort[] = [], parts = testParts(), shopParts: Partial<ShopParts> = {}) {
  const shop = createMeterShop({
    now: parts.clock.now,
    find: async () => ({ ports, problem: null }),
    openSerial: async (path, { lines }) =>
      createLineLink(
        path,
        lines,
        wireToInstrument(new LineInstrument({ source: (mhz) => mhz / 100, calibratedOn: '2026-01-15' }), {
          messageMs: 0,
          readingMs: 2,
        }),
      ),
    ...shopParts,
  });
  const { handlers, close } = createHandlers({ ...parts, shop, host: 'memory', version: '0' });
  onTestFinished(() => close());
  return { ...parts, handlers, close };
}
const onPort = { kind: 'serial', path: '/dev/ttyUSB0', profile: 'replay' } as const;
const sent = (parts: Awaited<ReturnType<typeof bench>>, name: string) =>
  parts.sent.filter((event) => event.name === name);

async function sweepOf(parts: Awaited<ReturnType<typeof bench>>, repeats?: number) {
  await parts.handlers['stations.import']({ fileName: 's.json', text: stationFile() }, signal);
  const visit = await parts.handlers['visits.begin'](
    { stationId: 'slipway', operator: '', ambientC: null, cautionsRead: true },
    signal,
  );
  await parts.handlers['meters.connect'](onPort, signal);
  return await parts.handlers['sweeps.start'](
    {
      visitId: visit.visitId,
      portName: 'forward output',
      purpose: 'as-found',
      frequenciesMhz: [711, 57, 423, 300, 303, 306],
      ...(repeats === undefined ? {} : { repeats }),
    },
    signal,
  );
}

it.each([undefined, 3])(
  'keeps the bytes of a sweep, and reads the same levels again from them',
  async (repeats) => {
    const parts = await bench();
    const { sweepId } = await sweepOf(parts, repeats);
    await soon(() => sent(parts, 'sweep.ended').length === 1);
    const { readings, summary } = await parts.handlers['sweeps.open']({ sweepId }, signal);
    expect(readings.map(({ frequencyMhz }) => frequencyMhz)).toEqual([57, 300, 303, 306, 423, 711]);
    expect(summary.meter?.calibratedOn).toBe('2026-01-15');
    const again = await parts.handlers['sweeps.reread']({ sweepId }, signal);
    expect(again).toMatchObject({ kept: true, same: true });
    expect(again.readings.map(({ meterDbmv }) => meterDbmv)).toEqual(
      readings.map(({ meterDbmv }) => meterDbmv),
    );
    expect(again.byteCount).toBeGreaterThan(0);
  },
);

it('says so where no bytes are kept: a sweep from a file', async () => {
  const one = await joined();
  const text = 'frequency_mhz,level_dbmv\n54,36\n';
  const { sweepId } = await one.handlers['sweeps.import'](
    {
      visitId: one.visit.visitId,
      portName: 'forward output',
      purpose: 'check',
      fileName: 'a.csv',
      text,
      testPointLossDb: 0,
    },
    signal,
  );
  expect(await one.handlers['sweeps.reread']({ sweepId }, signal)).toMatchObject({
    kept: false,
    same: false,
  });
});

it('rests before the next reading while it is paused, and goes on; stopping ends the rest', async () => {
  const one = await joined({ script: { paceMs: 2 } });
  const sweepId = await one.start(40);
  await one.until(() => one.readCount() >= 3);
  await one.handlers['sweeps.pause']({ sweepId, paused: true }, signal);
  await new Promise((resolve) => setTimeout(resolve, 60));
  const resting = one.readCount();
  await new Promise((resolve) => setTimeout(resolve, 60));
  expect(one.readCount()).toBe(resting);
  await one.handlers['sweeps.pause']({ sweepId, paused: false }, signal);
  await one.until(() => one.readCount() > resting);
  await one.handlers['sweeps.pause']({ sweepId, paused: true }, signal);
  await one.handlers['sweeps.stop']({ sweepId }, signal);
  expect(await one.endOf(sweepId)).toMatchObject({ state: 'partial', reason: 'stopped by hand' });
  // One that has ended needs no rest, and one that is nowhere is refused.
  await one.handlers['sweeps.pause']({ sweepId, paused: true }, signal);
  const nowhere = { sweepId: crypto.randomUUID(), paused: true };
  expect(await refusalOf(() => one.handlers['sweeps.pause'](nowhere, signal))).toMatchObject({
    code: 'no-such-sweep',
  });
});

it('says how long the rest will take once it knows the pace', async () => {
  const one = await joined({ script: { paceMs: 5 } });
  await one.endOf(await one.start(12));
  const left = one.sent.flatMap((event) => (event.name === 'sweep.reading' ? [event.data.leftMs] : []));
  expect(left[0]).toBeUndefined();
  expect(left[4]).toBeGreaterThan(0);
  expect(left.at(-1) ?? 0).toBe(0);
});

it('finds the last meter again by its adapter though its port has another name, also after a restart', async () => {
  const adapter = '0403:6001:a17';
  const ports: FoundPort[] = [{ path: '/dev/ttyUSB0', label: 'Harbour A17', likely: true, adapter }];
  const folder = throwAwayFolder();
  const first = await bench(ports, testParts(folder));
  expect(await first.handlers['meters.last']({}, signal)).toEqual({ last: null });
  await first.handlers['meters.connect'](onPort, signal);
  await soon(() => first.archive.meterLinks.lastUse() !== undefined);
  await first.close();
  first.archive.close();

  const second = await bench(ports, testParts(folder));
  const lastOf = async () => (await second.handlers['meters.last']({}, signal)).last;
  expect(await lastOf()).toMatchObject({
    choice: onPort,
    now: onPort,
    moved: false,
    identity: { serialNumber: 'QIW-0100', calibratedOn: '2026-01-15' },
  });
  ports[0] = { path: '/dev/ttyUSB3', label: 'Harbour A17', likely: true, adapter };
  expect(await lastOf()).toMatchObject({ now: { path: '/dev/ttyUSB3' }, moved: true });
  ports[0] = { path: '/dev/ttyUSB0', label: 'Other', likely: true, adapter: '0403:6001:b99' };
  expect(await lastOf()).toMatchObject({ now: null, moved: false });
});

it('does not say that the adapter is gone where the list of ports failed, nor leave the second port of one with two', async () => {
  const adapter = '0403:6010:a17';
  const two: FoundPort[] = ['/dev/ttyUSB0', '/dev/ttyUSB1'].map((path) => ({
    path,
    label: 'Harbour A17',
    likely: true,
    adapter,
  }));
  const found: { ports: FoundPort[]; problem: string | null } = { ports: two, problem: null };
  const one = await bench([], testParts(), { find: async () => found });
  await one.handlers['meters.connect']({ ...onPort, path: '/dev/ttyUSB1' }, signal);
  await soon(() => one.archive.meterLinks.lastUse() !== undefined);
  const lastOf = async () => (await one.handlers['meters.last']({}, signal)).last;
  expect(await lastOf()).toMatchObject({ now: { path: '/dev/ttyUSB1' }, moved: false });
  Object.assign(found, { ports: [], problem: 'the list hung' });
  expect(await lastOf()).toMatchObject({ now: { path: '/dev/ttyUSB1' }, moved: false });
  found.problem = null;
  expect(await lastOf()).toMatchObject({ now: null });
});

it('lists, checks and keeps profiles of a shop, and names what is wrong with one', async () => {
  const parts = await bench();
  const line = JSON.parse(readFileSync('electron/backend/meters/profiles/line.json', 'utf8'));
  const text = JSON.stringify({ ...line, name: 'mine', settleMs: 0 });
  const check = { path: '/dev/ttyUSB0', text, atMhz: 711 };
  const { exchanges, problemCount } = await parts.handlers['profiles.check'](check, signal);
  expect(problemCount).toBe(0);
  expect(exchanges.at(-1)).toMatchObject({ said: 'READ 711.000', heard: '711.000 7.11 dBmV OK' });
  expect(await parts.handlers['profiles.save']({ text }, signal)).toEqual({ name: 'mine' });
  const read = await parts.handlers['profiles.read']({ name: 'mine' }, signal);
  expect(read.shipped).toBe(false);
  expect(JSON.parse(read.text)).toMatchObject({ name: 'mine', level: line.level });
  expect(await parts.handlers['profiles.read']({ name: 'line' }, signal)).toMatchObject({ shipped: true });
  const gone = () => parts.handlers['profiles.read']({ name: 'none' }, signal);
  expect(await refusalOf(gone)).toMatchObject({ code: 'no-such-profile' });
  const list = await parts.handlers['profiles.list']({}, signal);
  expect(list.broken).toEqual([]);
  expect(list.folder).toContain('profiles');
  const broken = JSON.stringify({ ...line, name: 'mine', colour: 'red' });
  expect(await refusalOf(() => parts.handlers['profiles.save']({ text: broken }, signal))).toMatchObject({
    help: expect.stringContaining('"colour"'),
  });
});

it('tells how the link is: identity and sweep line by line, readings, and how old the last answer is', async () => {
  const parts = await bench();
  await sweepOf(parts);
  await soon(() => sent(parts, 'sweep.ended').length === 1);
  const health = await parts.handlers['meters.health']({}, signal);
  expect(health).toMatchObject({ where: '/dev/ttyUSB0', readingCount: 6, unansweredCount: 0, breakCount: 0 });
  expect(health.readingsPerSecond).toBeGreaterThan(0);
  expect(health.lastAnswerAgoMs).toBeLessThan(5000);
  const said = health.traffic.filter(({ way }) => way === 'said').map(({ text }) => text);
  expect(said.at(-1)).toBe('READ 711.000');
  expect(said.length).toBeGreaterThan(6);
  expect(health.traffic.at(-1)).toMatchObject({ way: 'heard', text: '711.000 7.11 dBmV OK' });
});

it('keeps the day of a sticker with the meter, and with every sweep that it reads', async () => {
  const parts = await bench();
  const note = (dueOn: string | null) => parts.handlers['meters.calibration']({ dueOn }, signal);
  expect(await refusalOf(() => note('2026-06-30'))).toMatchObject({ code: 'no-meter' });
  await parts.handlers['meters.connect'](onPort, signal);
  expect((await note('2026-06-30')).identity).toMatchObject({ calibrationDueOn: '2026-06-30' });
  expect(sent(parts, 'meter.changed').at(-1)?.data).toMatchObject({
    meter: { identity: { calibrationDueOn: '2026-06-30' } },
  });
  await parts.handlers['meters.disconnect']({}, signal);
  const { sweepId } = await sweepOf(parts);
  await soon(() => sent(parts, 'sweep.ended').length === 1);
  const { summary } = await parts.handlers['sweeps.open']({ sweepId }, signal);
  expect(summary.meter).toMatchObject({ calibratedOn: '2026-01-15', calibrationDueOn: '2026-06-30' });
  expect((await note(null)).identity).not.toHaveProperty('calibrationDueOn');
  const again = await parts.handlers['meters.connect'](onPort, signal);
  expect(again.identity).not.toHaveProperty('calibrationDueOn');
});

it('keeps that day with a live level and with a watch as well', async () => {
  const folder = throwAwayFolder();
  const parts = await bench([], testParts(folder));
  await parts.handlers['stations.import']({ fileName: 's.json', text: stationFile() }, signal);
  await parts.handlers['meters.connect'](onPort, signal);
  await parts.handlers['meters.calibration']({ dueOn: '2026-06-30' }, signal);
  const port = { stationId: 'slipway', visitId: null, portName: 'forward output' };
  const { liveId } = await parts.handlers['live.start']({ ...port, frequencyMhz: 711 }, signal);
  await parts.handlers['live.stop']({ liveId }, signal);
  const kept = lookInto(folder, (db) => db.prepare<[], { meter: string }>('SELECT meter FROM live').get());
  expect(JSON.parse(kept?.meter ?? '')).toMatchObject({ calibrationDueOn: '2026-06-30' });
  const watch = await parts.handlers['watch.start'](
    { ...port, frequenciesMhz: [711], pilotMhz: null, everyS: 600, forS: null, ambientC: null },
    signal,
  );
  expect(watch.meter.identity).toMatchObject({ calibrationDueOn: '2026-06-30' });
  await soon(() => sent(parts, 'watch.round').length === 1);
  await parts.handlers['watch.stop']({ watchId: watch.watchId }, signal);
  const meters = lookInto(folder, (db) => db.prepare('SELECT meter FROM watch_meter').all());
  // The first round's meter is the one of the start: no second entry that lacks the day.
  expect(meters).toHaveLength(1);
});
