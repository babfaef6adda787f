import { describe, expect, it } from 'vitest';
import type { Input } from '../../../core/bridge/contract.ts';
import { writeSweepCsv } from '../../../core/files/write-csv.ts';
import { createHandlers } from '../../../electron/backend/handlers.ts';
import { stationFile, testParts } from '../../support/archive.ts';
import { createFakeMeterShop } from '../../support/fake-meter.ts';

const signal = new AbortController().signal;
const DAY_MS = 86_400_000;

/** Two stations with a visit each, a day apart; the second visit is still open. */
async function twoVisits() {
  const parts = testParts();
  let laterMs = 0;
  const now = () => new Date(parts.clock.now().getTime() + laterMs);
  const shop = createFakeMeterShop({ now });
  const { handlers: call } = createHandlers({ ...parts, now, shop, host: 'memory', version: '0' });
  const station = (id: string, name: string) =>
    call['stations.import'](
      { fileName: `${id}.json`, text: JSON.stringify({ ...JSON.parse(stationFile()), id, name }) },
      signal,
    );
  await station('QM-1', '07 Mill Lane');
  await station('QM-2', 'Hafenstraße Öl');
  const rows = Array.from({ length: 40 }, (_, i) => ({ frequencyMhz: 54 + 20 * i, levelDbmv: 40 }));
  const sweep = (visitId: string, purpose: Input<'sweeps.import'>['purpose'], fileName: string) =>
    call['sweeps.import'](
      {
        visitId,
        portName: 'forward output',
        purpose,
        fileName,
        text: writeSweepCsv(rows, []),
        testPointLossDb: 0,
      },
      signal,
    );
  const begin = (stationId: string, operator: string) =>
    call['visits.begin']({ stationId, operator, ambientC: 20, cautionsRead: true }, signal);
  const first = await begin('QM-1', 'R. Voss');
  await sweep(first.visitId, 'as-found', 'before.csv');
  const { sweepId } = await sweep(first.visitId, 'as-left', 'after.csv');
  await call['visits.end']({ visitId: first.visitId, note: '100% wet_connector at the tee' }, signal);
  laterMs = DAY_MS;
  const second = await begin('QM-2', 'Łucja');
  const find = (words: readonly string[], days: Input<'search.records'>['days'] = null, most = 10) =>
    call['search.records']({ words: [...words], days, most }, signal);
  return { find, first, second, sweepId };
}

describe('search for records', () => {
  it('finds a visit by its operator, its note, its station and the beginning of its id', async () => {
    const { find, first, sweepId } = await twoVisits();
    for (const words of [['voss'], ['TEE', 'wet'], ['mill'], ['qm-1'], ['lane', 'voss'], [first.visitId]]) {
      const { visits } = await find(words);
      expect(visits.map(({ visitId }) => visitId)).toEqual([first.visitId]);
    }
    const [visit] = (await find(['voss'])).visits;
    expect(visit).toMatchObject({
      stationName: '07 Mill Lane',
      sweep: { sweepId, portName: 'forward output' },
    });
  });

  it('finds sweeps by port, purpose and file, the newest first, and no more than asked for', async () => {
    const { find, sweepId } = await twoVisits();
    expect((await find(['as', 'left', 'mill'])).sweeps.map((one) => one.sweepId)).toEqual([sweepId]);
    expect((await find(['before.csv'])).sweeps).toMatchObject([
      { purpose: 'as-found', fileName: 'before.csv' },
    ]);
    expect((await find(['forward'])).sweeps.map(({ purpose }) => purpose)).toEqual(['as-left', 'as-found']);
    expect((await find(['forward'], null, 1)).sweeps).toHaveLength(1);
    expect((await find([sweepId])).sweeps.map((one) => one.sweepId)).toEqual([sweepId]);
  });

  it('asks for every word, and finds nothing by one that is nowhere', async () => {
    const { find } = await twoVisits();
    expect(await find(['voss', 'öl'])).toEqual({ visits: [], sweeps: [] });
    expect(await find(['nobody'])).toEqual({ visits: [], sweeps: [] });
  });

  it('takes signs that SQL has a meaning for as what they are', async () => {
    const { find } = await twoVisits();
    expect((await find(['100%'])).visits).toHaveLength(1);
    expect((await find(['wet_connector'])).visits).toHaveLength(1);
    expect((await find(['w_t'])).visits).toHaveLength(0);
    expect((await find(['%'])).visits).toHaveLength(1);
    expect((await find(["'; DROP"])).visits).toHaveLength(0);
  });

  it('takes capitals for small letters in any alphabet, and another letter for none of them', async () => {
    const { find, second } = await twoVisits();
    for (const words of [['öl'], ['ÖL'], ['ŁUCJA'], ['łucja', 'straße']])
      expect((await find(words)).visits.map(({ visitId }) => visitId)).toEqual([second.visitId]);
    expect((await find(['äucja'])).visits).toEqual([]);
  });

  it('finds by days, the second of them not among them', async () => {
    const { find, first, second } = await twoVisits();
    const at = (moment: string, laterMs: number) => new Date(Date.parse(moment) + laterMs).toISOString();
    const onFirst = { from: at(first.startedAt, -1), before: at(first.startedAt, 3_600_000) };
    expect((await find([], onFirst)).visits.map(({ visitId }) => visitId)).toEqual([first.visitId]);
    expect((await find([], { from: at(first.startedAt, -1), before: first.startedAt })).visits).toEqual([]);
    expect(
      (await find(['voss'], { from: second.startedAt, before: at(second.startedAt, 1) })).visits,
    ).toEqual([]);
    expect(
      (await find([], { from: second.startedAt, before: at(second.startedAt, 1) })).visits,
    ).toMatchObject([{ note: '', sweep: null }]);
  });
});
