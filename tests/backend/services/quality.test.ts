import { describe, expect, it } from 'vitest';
import type { Handlers, Input } from '../../../core/bridge/contract.ts';
import { writeSweepCsv } from '../../../core/files/write-csv.ts';
import { stepsOf } from '../../../core/set-up/steps.ts';
import { createHandlers } from '../../../electron/backend/handlers.ts';
import { stationFile, testParts } from '../../support/archive.ts';
import { createFakeMeterShop } from '../../support/fake-meter.ts';
import { refusalOf } from './joined.ts';

const signal = new AbortController().signal;
const DAY_MS = 86_400_000;

/** All services over a real archive, and a hand that puts whole sweeps into it from files. */
function workshop() {
  const parts = testParts();
  let laterMs = 0;
  const now = () => new Date(parts.clock.now().getTime() + laterMs);
  const options = { ...parts, now };
  const shop = createFakeMeterShop({ now });
  const { handlers: call } = createHandlers({ ...options, shop, host: 'memory', version: '0' });
  const addStation = (id: string) =>
    call['stations.import'](
      { fileName: `${id}.json`, text: JSON.stringify({ ...JSON.parse(stationFile()), id, name: id }) },
      signal,
    );
  /** A sweep over the design's band, so many dB off at every channel. */
  const sweep = (
    visitId: string,
    purpose: Input<'sweeps.import'>['purpose'],
    offDb: number,
    design: Readonly<{ lowMhz: number; highMhz: number; lowDbmv: number; highDbmv: number }>,
  ) => {
    const rows = Array.from({ length: 40 }, (_, i) => {
      const share = i / 39;
      return {
        frequencyMhz: design.lowMhz + share * (design.highMhz - design.lowMhz),
        levelDbmv: design.lowDbmv + share * (design.highDbmv - design.lowDbmv) + offDb,
      };
    });
    const file = { fileName: 's.csv', text: writeSweepCsv(rows, []), testPointLossDb: 0 };
    return call['sweeps.import']({ visitId, portName: 'forward output', purpose, ...file }, signal);
  };
  return {
    ...parts,
    call,
    addStation,
    sweep,
    wait: (days: number) => {
      laterMs += days * DAY_MS;
    },
  };
}

async function designOf(call: Handlers, stationId: string) {
  const { station } = await call['stations.open']({ stationId }, signal);
  const design = station.ports.find(({ name }) => name === 'forward output')?.design;
  if (design === undefined) throw new Error('no design');
  return design;
}

/** A visit with one sweep for each offset, ended. */
async function visited(
  { call, sweep }: ReturnType<typeof workshop>,
  stationId: string,
  sweeps: readonly (readonly [Input<'sweeps.import'>['purpose'], number])[],
) {
  const { visitId } = await call['visits.begin'](
    { stationId, operator: 'R. Ames', ambientC: 18, cautionsRead: true },
    signal,
  );
  const design = await designOf(call, stationId);
  const ids: string[] = [];
  for (const [purpose, offDb] of sweeps) ids.push((await sweep(visitId, purpose, offDb, design)).sweepId);
  await call['visits.end']({ visitId, note: '' }, signal);
  return ids;
}

describe('the table of all stations', () => {
  it('comes in pages, each station once, in the order in which they were added', async () => {
    const { call, addStation } = workshop();
    for (let n = 0; n < 5; n++) await addStation(`station ${n}`);
    const first = await call['quality.stations']({ after: 0, limit: 3 }, signal);
    expect(first).toMatchObject({ total: 5 });
    const second = await call['quality.stations']({ after: first.next ?? -1, limit: 3 }, signal);
    expect(second.next).toBeNull();
    const names = [...first.stations, ...second.stations].map(({ name }) => name);
    expect(names).toEqual(['station 0', 'station 1', 'station 2', 'station 3', 'station 4']);
  });
  it('judges the newest sweep as the list of stations does, and knows the last visit', async () => {
    const shop = workshop();
    await shop.addStation('a');
    await visited(shop, 'a', [['as-found', -3]]);
    const [row] = (await shop.call['quality.stations']({ after: 0, limit: 10 }, signal)).stations;
    const [listed] = (await shop.call['stations.list']({}, signal)).stations;
    expect(row?.standing).toEqual(listed?.standing);
    expect(row?.standing).toMatchObject({ verdict: 'fail' });
    expect(row?.standing?.worstDb).toBeCloseTo(-3, 2);
    expect(row).toMatchObject({ openVisit: false, sweepCount: 1, reserve: null });
    expect(row?.lastVisitAt).not.toBeNull();
  });
  it('has a station that nobody ever went to', async () => {
    const { call, addStation } = workshop();
    await addStation('a');
    const [row] = (await call['quality.stations']({ after: 0, limit: 10 }, signal)).stations;
    expect(row).toMatchObject({ lastVisitAt: null, standing: null, sweepCount: 0 });
    const { trends } = await call['quality.trends']({ stationIds: ['a'] }, signal);
    expect(trends).toEqual([{ stationId: 'a', leftAsDesigned: null, drift: null }]);
  });
});

describe('a history', () => {
  it('drifts where the sweeps do, and says whether it was ever left as designed', async () => {
    const shop = workshop();
    await shop.addStation('a');
    await visited(shop, 'a', [['as-left', 0]]);
    for (const offDb of [-0.4, -0.8, -1.2, -1.6]) {
      shop.wait(200);
      await visited(shop, 'a', [['as-found', offDb]]);
    }
    const { trends } = await shop.call['quality.trends']({ stationIds: ['a'] }, signal);
    expect(trends[0]).toMatchObject({
      leftAsDesigned: true,
      drift: { state: 'drifting', words: 'level falls 0.7 dB a year' },
    });
    expect(trends[0]?.drift?.line).toHaveLength(5);
    const history = await shop.call['quality.history']({ stationId: 'a', portName: null }, signal);
    expect(history).toMatchObject({ portName: 'forward output', portNames: ['forward output'] });
    expect(
      history.sweeps.map(({ figures }) => Math.round((figures?.levelDb ?? Number.NaN) * 10) / 10),
    ).toEqual([0, -0.4, -0.8, -1.2, -1.6]);
  });
  it('was never left as designed where no as-left sweep passed', async () => {
    const shop = workshop();
    await shop.addStation('a');
    await visited(shop, 'a', [
      ['as-found', 0],
      ['as-left', -4],
    ]);
    const { trends } = await shop.call['quality.trends']({ stationIds: ['a'] }, signal);
    expect(trends[0]?.leftAsDesigned).toBe(false);
  });
  it('looks neither at checks nor at sweeps that were declared void', async () => {
    const shop = workshop();
    await shop.addStation('a');
    const [good, wrong] = await visited(shop, 'a', [
      ['as-found', -0.2],
      ['as-left', -9],
      ['check', -7],
    ]);
    const ids = async () =>
      (await shop.call['quality.history']({ stationId: 'a', portName: null }, signal)).sweeps.map(
        ({ sweepId }) => sweepId,
      );
    expect(await ids()).toEqual([good, wrong]);
    await shop.call['sweeps.void'](
      { sweepId: wrong ?? '', reason: 'wrong port', operator: 'R. Ames' },
      signal,
    );
    expect(await ids()).toEqual([good]);
  });
  it('has the reserve that each set-up left, and what the rule asked for on that day', async () => {
    const shop = workshop();
    await shop.addStation('a');
    const setUp = async (ambientC: number, maxDbmv: number) => {
      const { visitId } = await shop.call['visits.begin'](
        { stationId: 'a', operator: 'R. Ames', ambientC, cautionsRead: true },
        signal,
      );
      const asked = { topMhz: null, topCarrierMhz: null, pilotMhz: null, spanDb: null, ambientC: null };
      await shop.call['set-up.begin']({ visitId, kind: 'check', ...asked }, signal);
      const values: Readonly<Record<string, Readonly<Record<string, number>>>> = {
        'max-gain': { maxDbmv },
        'back-off': { setDbmv: 46 },
        ambient: { ambientC, setDbmv: 44 },
      };
      for (const { id } of stepsOf('check')) {
        const found = values[id];
        await shop.call['set-up.record'](
          {
            visitId,
            step: id,
            outcome: found === undefined ? 'skipped' : 'done',
            by: 'hand',
            reason: found === undefined ? 'not wanted' : null,
            values: found ?? {},
            liveId: null,
          },
          signal,
        );
      }
      await shop.call['visits.end']({ visitId, note: '' }, signal);
      return visitId;
    };
    const mild = await setUp(15, 48.5);
    shop.wait(200);
    const cold = await setUp(-18, 50);
    const { reserves } = await shop.call['quality.history']({ stationId: 'a', portName: null }, signal);
    // The rule asks for 4 dB at 870 MHz, and for 2 more in the cold of -18 degrees C.
    expect(reserves.map(({ visitId, leftDb, askedDb }) => [visitId, leftDb, askedDb])).toEqual([
      [mild, 4.5, 4],
      [cold, 6, 6],
    ]);
    const [row] = (await shop.call['quality.stations']({ after: 0, limit: 10 }, signal)).stations;
    expect(row?.reserve).toEqual({ leftDb: 6, askedDb: 6 });
  });
  it('is refused for a port that the station does not have', async () => {
    const { call, addStation } = workshop();
    await addStation('a');
    const asked = () => call['quality.history']({ stationId: 'a', portName: 'no such port' }, signal);
    expect(await refusalOf(asked)).toMatchObject({ code: 'no-such-port' });
  });
  it('is empty, with the port that could be read, where nothing was', async () => {
    const { call, addStation } = workshop();
    await addStation('a');
    const history = await call['quality.history']({ stationId: 'a', portName: null }, signal);
    expect(history).toMatchObject({ portName: 'forward output', sweeps: [] });
  });
});

describe('a period', () => {
  it('has its visits with how each station was found and left, and no others', async () => {
    const shop = workshop();
    await shop.addStation('a');
    await shop.addStation('b');
    await visited(shop, 'a', [['as-found', 0]]);
    shop.wait(40);
    const from = new Date(shop.clock.now().getTime() + 39 * DAY_MS).toISOString();
    await visited(shop, 'b', [
      ['as-found', -4],
      ['as-left', 0],
    ]);
    const to = new Date(shop.clock.now().getTime() + 50 * DAY_MS).toISOString();
    const batch = await shop.call['quality.period']({ from, to }, signal);
    expect(batch.visits.map(({ stationName }) => stationName)).toEqual(['b']);
    expect(batch.visits[0]).toMatchObject({ operator: 'R. Ames', sweepCount: 2, ambientC: 18 });
    expect(batch.visits[0]?.before?.verdict).toBe('fail');
    expect(batch.visits[0]?.after?.verdict).toBe('pass');
    expect(batch.totals).toMatchObject({ visits: 1, leftPass: 1, putRight: 1, notLeft: 0 });
  });
  it('is refused where it ends before it begins', async () => {
    const { call } = workshop();
    const wrong = { from: '2026-03-02T00:00:00.000Z', to: '2026-03-01T00:00:00.000Z' };
    expect(await refusalOf(() => call['quality.period'](wrong, signal))).toMatchObject({
      code: 'bad-period',
    });
  });
});

describe('the demo', () => {
  it('shows a drift at Customs Quay, and loading it again changes nothing', async () => {
    const { call } = workshop();
    const { stationIds } = await call['demo.load']({}, signal);
    const trends = async () => (await call['quality.trends']({ stationIds: [...stationIds] }, signal)).trends;
    const first = await trends();
    const drifting = first.filter(({ drift }) => drift?.state === 'drifting');
    expect(drifting.map(({ stationId, drift }) => [stationId, drift?.words])).toEqual([
      ['qm4-11-customs-quay', 'flatness grows 0.6 dB a year'],
    ]);
    await call['demo.load']({}, signal);
    expect(await trends()).toEqual(first);
  });
  it('leaves Customs Quay as it is where somebody was there already', async () => {
    const { call } = workshop();
    await call['demo.load']({}, signal);
    const { sweeps } = await call['quality.history'](
      { stationId: 'qm4-11-customs-quay', portName: null },
      signal,
    );
    expect(sweeps).toHaveLength(9);
    expect(sweeps.map(({ at }) => at)).toEqual([...sweeps.map(({ at }) => at)].sort());
  });
});

describe('what was judged before', () => {
  it('is kept, so that a later look judges no sweep again, and is judged anew by other settings', async () => {
    const { call, addStation, archive, sweep } = workshop();
    await addStation('s1');
    const design = await designOf(call, 's1');
    const { visitId } = await call['visits.begin'](
      { stationId: 's1', operator: 'Ida', ambientC: null, cautionsRead: true },
      signal,
    );
    const { sweepId } = await sweep(visitId, 'as-found', 0.3, design);
    const look = () => call['quality.stations']({ after: 0, limit: 10 }, signal);
    const kept = () => archive.quality.sweepsOfIds([sweepId])[0];
    expect(kept()?.basis).toBeNull();
    const first = await look();
    expect(kept()).toMatchObject({ basis: 1, verdict: expect.any(Number) });
    expect(kept()?.worstDb).toBeCloseTo(0.3, 3);
    expect(await look()).toEqual(first);
    expect(kept()?.basis).toBe(1);
    const { settings, revision } = await call['settings.read']({}, signal);
    await call['settings.change'](
      { settings: { ...settings, meter: { ...settings.meter, accuracyDb: 3 } }, basedOn: revision },
      signal,
    );
    await look();
    expect(kept()?.basis).toBe(2);
  });
});

describe('how stations go', () => {
  it('is kept until something is recorded there or the settings judge otherwise', async () => {
    const shop = workshop();
    await shop.addStation('a');
    await visited(shop, 'a', [['as-found', 0]]);
    const look = async () => {
      await shop.call['quality.stations']({ after: 0, limit: 10 }, signal);
      return (await shop.call['quality.trends']({ stationIds: ['a'] }, signal)).trends;
    };
    const kept = () => shop.archive.stations.trend('a')?.trend ?? null;
    const first = await look();
    expect(JSON.parse(kept() ?? 'null')).toEqual(first[0]);
    expect(await look()).toEqual(first);
    shop.wait(30);
    await visited(shop, 'a', [['as-left', 0]]);
    expect(kept()).toBeNull();
    expect((await look())[0]?.leftAsDesigned).toBe(true);
    const { settings, revision } = await shop.call['settings.read']({}, signal);
    await shop.call['settings.change'](
      { settings: { ...settings, meter: { ...settings.meter, accuracyDb: 3 } }, basedOn: revision },
      signal,
    );
    expect((await look())[0]?.leftAsDesigned).toBe(false);
  });
});

it('says of a station that it is out of service and why, in both lists, and forgets it when it is back', async () => {
  const { call, addStation } = workshop();
  await addStation('tar-steps');
  await addStation('ropewalk');
  const reasons = async () => {
    const { stations } = await call['stations.list']({}, signal);
    const { stations: all } = await call['quality.stations']({ after: 0, limit: 10 }, signal);
    expect(all.map(({ outOfService }) => outOfService)).toEqual(stations.map((row) => row.outOfService));
    return stations.map(({ stationId, outOfService }) => [stationId, outOfService]);
  };
  // As it is kept before anything is said.
  expect(await reasons()).toEqual([
    ['tar-steps', undefined],
    ['ropewalk', undefined],
  ]);
  const format = 'tiltwright-station-notes/1' as const;
  const change = (basedOn: number, notes: Input<'notes.change'>['notes']) =>
    call['notes.change']({ stationId: 'tar-steps', basedOn, notes }, signal);
  await change(0, { format, outOfService: { reason: 'taken down in March' } });
  expect(await reasons()).toEqual([
    ['tar-steps', 'taken down in March'],
    ['ropewalk', undefined],
  ]);
  await change(1, { format });
  expect((await reasons())[0]).toEqual(['tar-steps', undefined]);
});
