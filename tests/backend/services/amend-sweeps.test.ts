import { expect, it } from 'vitest';
import { joined, refusalOf } from './joined.ts';

const said = { reason: 'the lead was at the 16 dB point', operator: 'R. Voss' };
const unknown = '00000000-0000-4000-8000-999999999999';

// 20 dBmV at the test point is 40 dBmV at the port; the design asks for 36 at 54 MHz and 46 at 870 MHz.
const straight = (mhz: number) => 16 + (10 * (mhz - 54)) / 816;

async function twice() {
  let errorDb = 0;
  const bench = await joined({ script: { levelDbmv: (mhz) => straight(mhz) + errorDb } });
  const good = await bench.start(137);
  await bench.endOf(good);
  errorDb = 4;
  bench.clock.forward(60_000);
  const off = await bench.start(137);
  await bench.endOf(off);
  const standing = async () =>
    (await bench.handlers['stations.list']({}, bench.signal)).stations[0]?.standing ?? null;
  return { ...bench, good, off, standing };
}

it('keeps a void sweep with its reason, and judges the station by the one before', async () => {
  const { handlers, signal, off, good, standing, open, sheet } = await twice();
  expect(await standing()).toMatchObject({ sweepId: off, verdict: 'fail' });
  const before = await open(off);
  const summary = await handlers['sweeps.void']({ sweepId: off, ...said }, signal);
  expect(summary.voided).toMatchObject(said);
  expect(await open(off)).toEqual({ summary, readings: before.readings });
  expect((await sheet()).sweeps.map(({ sweepId }) => sweepId)).toEqual([off, good]);
  expect(await standing()).toMatchObject({ sweepId: good, verdict: 'pass' });
  const again = await refusalOf(() => handlers['sweeps.void']({ sweepId: off, ...said }, signal));
  expect(again).toMatchObject({ code: 'void-already', help: expect.stringContaining(said.reason) });
});

it('corrects by a new sweep with the same readings, which is judged in the place of the old one', async () => {
  const { handlers, signal, off, good, standing, open, sheet, visit, clock } = await twice();
  await handlers['visits.end']({ visitId: visit.visitId, note: '' }, signal);
  clock.forward(86_400_000);
  const change = { testPointLossDb: 16, ambientC: -4.5 };
  const made = await handlers['sweeps.correct']({ sweepId: off, ...said, ...change }, signal);
  expect(made).toMatchObject({
    ...change,
    corrects: { sweepId: off, ...said },
    correctedBy: null,
    state: 'complete',
  });
  const [old, corrected] = [await open(off), await open(made.sweepId)];
  expect(old.summary).toMatchObject({ testPointLossDb: 20, correctedBy: made.sweepId, corrects: null });
  expect(corrected.readings).toEqual(old.readings);
  expect(corrected.summary.startedAt).toBe(old.summary.startedAt);
  expect((await sheet()).sweeps.map(({ sweepId }) => sweepId)).toEqual([made.sweepId, off, good]);
  expect(await standing()).toMatchObject({ sweepId: made.sweepId, verdict: 'pass' });
  const refuses = async (input: Parameters<(typeof handlers)['sweeps.correct']>[0]) =>
    (await refusalOf(() => handlers['sweeps.correct'](input, signal))).code;
  expect(await refuses({ sweepId: off, ...said, testPointLossDb: 10 })).toBe('corrected-already');
  expect(await refuses({ sweepId: made.sweepId, ...said })).toBe('no-change');
  expect(await refuses({ sweepId: made.sweepId, ...said, portName: 'nowhere' })).toBe('no-such-port');
  expect(await refuses({ sweepId: unknown, ...said, testPointLossDb: 1 })).toBe('no-such-sweep');
  // A void correction corrects nothing: the old sweep counts again.
  await handlers['sweeps.void']({ sweepId: made.sweepId, ...said }, signal);
  expect((await open(off)).summary.correctedBy).toBeNull();
  expect(await standing()).toMatchObject({ sweepId: off, verdict: 'fail' });
});

it('an older sweep that is corrected does not pass for the newest', async () => {
  const { handlers, signal, off, good, standing } = await twice();
  await handlers['sweeps.correct']({ sweepId: good, ...said, purpose: 'check' }, signal);
  expect(await standing()).toMatchObject({ sweepId: off });
});

it('says nothing of a sweep that still runs', async () => {
  const bench = await joined({ script: { stepped: true } });
  const sweepId = await bench.start();
  const running = await refusalOf(() => bench.handlers['sweeps.void']({ sweepId, ...said }, bench.signal));
  expect(running.code).toBe('sweep-running');
  await bench.handlers['sweeps.stop']({ sweepId }, bench.signal);
});

it('verifies through the bridge, with the head', async () => {
  const { handlers, signal, archive } = await twice();
  const found = await handlers['archive.verify']({}, signal);
  expect(found).toMatchObject({ sweeps: 2, broken: [], head: archive.head() });
});
