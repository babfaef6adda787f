import { describe, expect, it } from 'vitest';
import type { Input } from '../../../core/bridge/contract.ts';
import { joined, refusalOf } from './joined.ts';

type Bench = Awaited<ReturnType<typeof joined>>;

const asked = { topMhz: null, topCarrierMhz: null, pilotMhz: null, spanDb: null, ambientC: null };
const begin = (bench: Bench, kind: 'new-module' | 'check' = 'check') =>
  bench.handlers['set-up.begin']({ visitId: bench.visit.visitId, kind, ...asked }, bench.signal);
const record = (bench: Bench, more: Partial<Input<'set-up.record'>>) =>
  bench.handlers['set-up.record'](
    {
      visitId: bench.visit.visitId,
      step: 'sweep-as-found',
      outcome: 'done',
      by: 'hand',
      reason: null,
      values: {},
      liveId: null,
      ...more,
    },
    bench.signal,
  );
const open = (bench: Bench) => bench.handlers['set-up.open']({ visitId: bench.visit.visitId }, bench.signal);

describe('a set-up', () => {
  it('belongs to a visit, one at a time, and is kept as it was planned', async () => {
    const bench = await joined();
    expect(await open(bench)).toEqual({ setUp: null });
    const setUp = await begin(bench);
    expect(setUp).toMatchObject({
      visitId: bench.visit.visitId,
      plan: { kind: 'check', outputPort: 'forward output', inputPort: 'forward input', topMhz: 870 },
      events: [],
      abandoned: null,
    });
    expect(await refusalOf(() => begin(bench))).toMatchObject({ code: 'set-up-begun' });
    expect(await open(bench)).toEqual({ setUp });
  });

  it('keeps what happened in order, and refuses what core refuses', async () => {
    const bench = await joined();
    expect(await refusalOf(() => record(bench, {}))).toMatchObject({ code: 'no-set-up' });
    await begin(bench);
    expect(await refusalOf(() => record(bench, { step: 'settle' }))).toMatchObject({ code: 'not-next' });
    expect(await refusalOf(() => record(bench, {}))).toMatchObject({ code: 'bad-value' });
    expect(await refusalOf(() => record(bench, { outcome: 'skipped' }))).toMatchObject({ code: 'no-reason' });
    const { events } = await record(bench, { outcome: 'skipped', reason: 'no carriers yet' });
    expect(events).toMatchObject([
      { seq: 0, step: 'sweep-as-found', outcome: 'skipped', reason: 'no carriers yet' },
    ]);
    const again = await record(bench, { outcome: 'redo' });
    expect(again.events.map(({ outcome }) => outcome)).toEqual(['skipped', 'redo']);
    expect((await open(bench)).setUp).toEqual(again);
  });

  it('takes only sweeps of its visit, at its output', async () => {
    const bench = await joined();
    await begin(bench);
    const inputId = await bench.start(3, 'forward input');
    await bench.endOf(inputId);
    const of = (sweepId: string) => record(bench, { by: 'reading', values: { sweepId } });
    expect(await refusalOf(() => of(inputId))).toMatchObject({ code: 'other-port' });
    expect(await refusalOf(() => of('7d4a3c52-6f0e-4c1b-9a55-0d3f7b1c2e90'))).toMatchObject({
      code: 'no-such-sweep',
    });
    const outputId = await bench.start(3);
    await bench.endOf(outputId);
    expect((await of(outputId)).events).toMatchObject([{ by: 'reading', values: { sweepId: outputId } }]);
  });

  it('names the live reading that proved a step, if it is one of the station', async () => {
    const bench = await joined();
    await begin(bench);
    await record(bench, { outcome: 'skipped', reason: 'rain' });
    const at = { stationId: 'slipway', visitId: bench.visit.visitId, portName: 'forward output' };
    const { liveId } = await bench.handlers['live.start']({ ...at, frequencyMhz: 711 }, bench.signal);
    await bench.handlers['live.stop']({ liveId }, bench.signal);
    const pilot = { step: 'pilot-as-found', by: 'reading', values: { levelDbmv: 44 } } as const;
    const strange = '7d4a3c52-6f0e-4c1b-9a55-0d3f7b1c2e90';
    expect(await refusalOf(() => record(bench, { ...pilot, liveId: strange }))).toMatchObject({
      code: 'no-such-live',
    });
    expect((await record(bench, { ...pilot, liveId })).events.at(-1)).toMatchObject({ liveId });
  });

  it('may be given up for a reason; it stays, and another is begun', async () => {
    const bench = await joined();
    await begin(bench, 'new-module');
    const { visitId } = bench.visit;
    const given = await bench.handlers['set-up.abandon']({ visitId, reason: 'wrong work' }, bench.signal);
    expect(given.abandoned).toBe('wrong work');
    expect(await open(bench)).toEqual({ setUp: null });
    await begin(bench, 'check');
    const { setUps } = await bench.handlers['set-up.list']({ stationId: 'slipway' }, bench.signal);
    expect(setUps.map(({ plan, abandoned }) => [plan.kind, abandoned])).toEqual([
      ['check', null],
      ['new-module', 'wrong work'],
    ]);
  });

  it('takes nothing more once the visit has ended, and can still be read', async () => {
    const bench = await joined();
    const setUp = await begin(bench);
    await bench.handlers['visits.end']({ visitId: bench.visit.visitId, note: '' }, bench.signal);
    expect(await refusalOf(() => record(bench, { outcome: 'skipped', reason: 'late' }))).toMatchObject({
      code: 'visit-ended',
    });
    expect(await open(bench)).toEqual({ setUp });
  });
});
