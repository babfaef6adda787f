import { expect, it } from 'vitest';
import { FIRST_SETTINGS } from '../../../core/bridge/settings-calls.ts';
import type { StationNotes } from '../../../core/files/station-notes.ts';
import type { Truck } from '../../../core/files/truck.ts';
import { lookInto } from '../../support/archive.ts';
import { joined, refusalOf } from './joined.ts';

type Bench = Awaited<ReturnType<typeof joined>>;
const truck: Truck = {
  format: 'tiltwright-truck/1',
  parts: [
    { kind: 'pad', valueDb: 3, count: 2 },
    { kind: 'equalizer', topMhz: 870, valueDb: 4, count: 0 },
  ],
};
const call = (bench: Bench) => ({
  settings: () => bench.handlers['settings.read']({}, bench.signal),
  change: (basedOn: number, over: Partial<typeof FIRST_SETTINGS>) =>
    bench.handlers['settings.change']({ basedOn, settings: { ...FIRST_SETTINGS, ...over } }, bench.signal),
  notes: () => bench.handlers['notes.read']({ stationId: 'slipway' }, bench.signal),
  changeNotes: (basedOn: number, notes: StationNotes | null) =>
    bench.handlers['notes.change']({ stationId: 'slipway', basedOn, notes }, bench.signal),
  truck: () => bench.handlers['truck.read']({}, bench.signal),
  changeTruck: (basedOn: number, kept: Truck | null) =>
    bench.handlers['truck.change']({ basedOn, truck: kept }, bench.signal),
  fit: (changes: { position: string; from: number; to: number }[]) =>
    bench.handlers['parts.fit']({ visitId: bench.visit.visitId, changes, proposal: null }, bench.signal),
});
const namesOf = (bench: Bench) =>
  bench.sent.map(({ name }) => name).filter((name) => /^(settings|notes|truck)\.changed$/.test(name));

it('starts from the first settings, keeps every change as a revision, and tells every page', async () => {
  const bench = await joined();
  const ask = call(bench);
  expect(await ask.settings()).toEqual({ settings: FIRST_SETTINGS, revision: 0, changedAt: null });
  await ask.change(0, { levelUnit: 'dBuV' });
  await ask.change(1, { levelUnit: 'mV', temperatureUnit: 'F' });
  expect(await ask.settings()).toMatchObject({
    revision: 2,
    settings: { levelUnit: 'mV', temperatureUnit: 'F', lengthUnit: 'm' },
  });
  expect(bench.sent.filter(({ name }) => name === 'settings.changed')).toHaveLength(2);
  bench.archive.close();
  const kept = lookInto(bench.folder, (db) =>
    db.prepare('SELECT revision, settings FROM settings_revision ORDER BY seq').all(),
  ) as { revision: number; settings: string }[];
  expect(kept.map(({ settings }) => JSON.parse(settings).levelUnit)).toEqual(['dBuV', 'mV']);
});

it('adds nothing when nothing changed, and loses nobody’s change', async () => {
  const bench = await joined();
  const ask = call(bench);
  expect(await ask.change(0, {})).toMatchObject({ revision: 0 });
  await ask.change(0, { lengthUnit: 'ft' });
  expect(await refusalOf(() => ask.change(0, { levelUnit: 'dBm75' }))).toMatchObject({
    code: 'changed-meanwhile',
  });
  expect((await ask.settings()).settings.levelUnit).toBe('dBmV');
  await ask.changeTruck(0, truck);
  expect(await refusalOf(() => ask.changeTruck(0, null))).toMatchObject({ code: 'changed-meanwhile' });
  await ask.changeNotes(0, { format: 'tiltwright-station-notes/1' });
  expect(await refusalOf(() => ask.changeNotes(0, null))).toMatchObject({ code: 'changed-meanwhile' });
  expect(namesOf(bench)).toEqual(['settings.changed', 'truck.changed', 'notes.changed']);
});

it('judges by the line-up and the uncertainty that hold now', async () => {
  // 54 to 84 MHz lie 9 dB under the design: out by far, until the line-up says that they are carried there.
  const bench = await joined({ script: { levelDbmv: () => 7 } });
  const ask = call(bench);
  await bench.endOf(await bench.start());
  const standing = async () =>
    (await bench.handlers['stations.list']({}, bench.signal)).stations[0]?.standing;
  expect(await standing()).toMatchObject({ verdict: 'fail' });
  const lineUp = [54, 60, 66, 72, 78, 84].map((frequencyMhz, i) => ({
    channelLabel: String(i),
    frequencyMhz,
    kind: 'qam' as const,
    qamOrder: 64,
    widthMhz: 6,
    offsetDb: -9,
  }));
  await ask.changeNotes(0, { format: 'tiltwright-station-notes/1', lineUp });
  const exact = { accuracyDb: 0, acrossBandDb: 0, repeatabilityDb: 0, testPointToleranceDb: 0 };
  const meter = { ...FIRST_SETTINGS.meter, ...exact, temperatureDbPerC: 0 };
  await ask.change(0, { meter });
  expect(await standing()).toMatchObject({ verdict: 'pass' });
  await ask.change(1, { meter: { ...meter, accuracyDb: 5 } });
  expect(await standing()).toMatchObject({ verdict: 'undecided' });
});

it('offers every value that some station takes, and refuses notes of a station that is not there', async () => {
  const bench = await joined();
  expect(await call(bench).truck()).toEqual({
    truck: null,
    revision: 0,
    changedAt: null,
    kit: [
      { kind: 'pad', topMhz: null, valuesDb: [0, 1, 2, 3, 6] },
      { kind: 'equalizer', topMhz: 870, valuesDb: [0, 2, 4, 6, 8] },
    ],
  });
  for (const name of ['notes.read', 'notes.change'] as const)
    expect(
      await refusalOf(() =>
        bench.handlers[name]({ stationId: 'nowhere', basedOn: 0, notes: null }, bench.signal),
      ),
    ).toMatchObject({ code: 'no-such-station' });
});

it('moves fitted parts between truck and station in the transaction that notes the fitting', async () => {
  const bench = await joined();
  const ask = call(bench);
  await ask.fit([{ position: 'input pad', from: 6, to: 3 }]);
  expect((await ask.truck()).revision).toBe(0);
  await ask.changeTruck(0, truck);
  await ask.fit([
    { position: 'input pad', from: 3, to: 1 },
    { position: 'input equalizer', from: 8, to: 4 },
  ]);
  const moved = await ask.truck();
  expect(moved.revision).toBe(2);
  expect(moved.truck?.parts).toEqual([
    { kind: 'pad', valueDb: 3, count: 3 },
    { kind: 'equalizer', topMhz: 870, valueDb: 4, count: 0 },
    { kind: 'equalizer', topMhz: 870, valueDb: 8, count: 1 },
  ]);
  expect(namesOf(bench)).toEqual(['truck.changed', 'truck.changed']);

  // A refused fitting moves nothing.
  await refusalOf(() => ask.fit([{ position: 'input pad', from: 6, to: 2 }]));
  expect((await ask.truck()).revision).toBe(2);
  bench.archive.close();
  const causes = lookInto(bench.folder, (db) =>
    db.prepare('SELECT visit FROM truck_revision ORDER BY seq').pluck().all(),
  );
  expect(causes).toEqual([null, 1]);
});

it('keeps no truck any more when told so', async () => {
  const bench = await joined();
  const ask = call(bench);
  await ask.changeTruck(0, truck);
  expect(await ask.changeTruck(1, null)).toMatchObject({ truck: null, revision: 2 });
  await ask.fit([{ position: 'input pad', from: 6, to: 3 }]);
  expect((await ask.truck()).revision).toBe(2);
});
