import { expect, it } from 'vitest';
import type { Turn } from '../../../core/bridge/records.ts';
import { verify } from '../../../electron/backend/services/verify.ts';
import { joined, refusalOf } from './joined.ts';

type Bench = Awaited<ReturnType<typeof joined>>;
const down: Turn = { name: 'output gain', kind: 'gain', atMhz: 867, byDb: -0.7 };
const trim = { name: 'output gain', kind: 'gain' as const, rangeDb: [-2, 2] as [number, number], atMhz: 867 };

async function swept(): Promise<Readonly<{ bench: Bench; sweepId: string }>> {
  const bench = await joined();
  const sweepId = await bench.start();
  await bench.endOf(sweepId);
  return { bench, sweepId };
}
const turn = ({ handlers, visit, signal }: Bench, sweepId: string, turns: Turn[] = [down]) =>
  handlers['trims.turn']({ visitId: visit.visitId, sweepId, turns }, signal);

it('keeps what was turned with its sweep, as a record of the chain', async () => {
  const { bench, sweepId } = await swept();
  const { turns } = await turn(bench, sweepId, [
    down,
    { name: 'slope', kind: 'slope', atMhz: 867, byDb: 0.4 },
  ]);
  expect(turns.map((one) => [one.sweepId, one.portName, one.turn])).toEqual([
    [sweepId, 'forward output', down],
    [sweepId, 'forward output', { name: 'slope', kind: 'slope', atMhz: 867, byDb: 0.4 }],
  ]);
  // Newest first on the sheet, as everything there.
  expect((await bench.sheet()).turns).toEqual(turns.toReversed());
  expect((await verify(bench.archive, bench.signal)).broken).toEqual([]);
});

it('moves the ranges of the notes in the same breath, and tells every page', async () => {
  const { bench, sweepId } = await swept();
  const { handlers, signal } = bench;
  const notes = { format: 'tiltwright-station-notes/1' as const, trims: [trim] };
  const { revision } = await handlers['notes.change']({ stationId: 'slipway', basedOn: 0, notes }, signal);
  await turn(bench, sweepId);
  const kept = await handlers['notes.read']({ stationId: 'slipway' }, signal);
  expect(kept.revision).toBe(revision + 1);
  expect(kept.notes?.trims).toEqual([{ ...trim, rangeDb: [-1.3, 2.7] }]);
  expect(bench.sent.filter(({ name }) => name === 'notes.changed')).toHaveLength(2);
});

it('needs no notes: what a hand did is kept all the same', async () => {
  const { bench, sweepId } = await swept();
  await turn(bench, sweepId);
  expect((await bench.handlers['notes.read']({ stationId: 'slipway' }, bench.signal)).revision).toBe(0);
  expect((await bench.sheet()).turns).toHaveLength(1);
});

it.each([
  ['a sweep of nowhere', '00000000-0000-4000-8000-000000000099', [down], 'no-such-sweep'],
  ['one trim twice', null, [down, down], 'twice'],
])('refuses %s and keeps nothing', async (_what, other, turns, code) => {
  const { bench, sweepId } = await swept();
  expect(await refusalOf(() => turn(bench, other ?? sweepId, turns))).toMatchObject({ code });
  expect((await bench.sheet()).turns).toEqual([]);
});

it('refuses a visit that has ended, and a sweep that still runs', async () => {
  const { bench, sweepId } = await swept();
  const running = await bench.start(40);
  expect(await refusalOf(() => turn(bench, sweepId))).toMatchObject({ code: 'sweep-running' });
  await bench.handlers['sweeps.stop']({ sweepId: running }, bench.signal);
  await bench.handlers['visits.end']({ visitId: bench.visit.visitId, note: '' }, bench.signal);
  expect(await refusalOf(() => turn(bench, sweepId))).toHaveProperty('code');
});
