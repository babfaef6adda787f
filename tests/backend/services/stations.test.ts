import { expect, it } from 'vitest';
import { stationFile } from '../../support/archive.ts';
import { joined } from './joined.ts';

type Bench = Awaited<ReturnType<typeof joined>>;
const row = async (bench: Bench) => (await bench.handlers['stations.list']({}, bench.signal)).stations[0];

it('adds a revision for another design only', async () => {
  const bench = await joined();
  const importing = (text: string) =>
    bench.handlers['stations.import']({ fileName: 'again.json', text }, bench.signal);
  // The same design in another spelling.
  const { id, ...rest } = JSON.parse(stationFile());
  expect((await importing(JSON.stringify({ ...rest, id }, null, 4))).revision).toBe(1);
  expect((await importing(stationFile({ name: 'Slipway 2 east' }))).revision).toBe(2);
  expect((await importing(stationFile())).revision).toBe(3);
  expect(await row(bench)).toMatchObject({ name: 'Slipway 2', revision: 3 });
});

// 20 dBmV at the test point is 40 dBmV at the port; the design asks for 36 at 54 MHz and 46 at 870 MHz.
const straight = (mhz: number) => 16 + (10 * (mhz - 54)) / 816;

it('shows the newest ended sweep at a port with a design, as core judges it', async () => {
  let errorDb = 0;
  const bench = await joined({ script: { levelDbmv: (mhz) => straight(mhz) + errorDb } });
  expect((await row(bench))?.standing).toBeNull();
  const good = await bench.start(137);
  await bench.endOf(good);
  expect((await row(bench))?.standing).toMatchObject({
    sweepId: good,
    verdict: 'pass',
    state: 'complete',
    purpose: 'as-found',
  });
  errorDb = 3;
  const bad = await bench.start(137);
  await bench.endOf(bad);
  const standing = (await row(bench))?.standing;
  expect(standing).toMatchObject({ sweepId: bad, verdict: 'fail' });
  expect(standing?.worstDb).toBeCloseTo(3, 2);
  // A port without a design can't be judged and changes nothing.
  await bench.endOf(await bench.start(137, 'forward input'));
  expect((await row(bench))?.standing?.sweepId).toBe(bad);
  expect((await row(bench))?.sweepCount).toBe(3);
});

it('leaves a running sweep out, and judges a partial one by what it has, or says why it can not', async () => {
  const bench = await joined({ script: { stepped: true, levelDbmv: straight } });
  const sweepId = await bench.start();
  expect((await row(bench))?.standing).toBeNull();
  await bench.handlers['sweeps.stop']({ sweepId }, bench.signal);
  const standing = (await row(bench))?.standing;
  expect(standing).toMatchObject({ sweepId, state: 'partial', verdict: null, worstDb: null });
  expect(standing?.headline).not.toBe('');
});

it('keeps a described station only where its id is new, and a change only of the design that was looked at', async () => {
  const bench = await joined();
  const keep = (basedOn: number, changed: Readonly<Record<string, unknown>>) =>
    bench.handlers['stations.import'](
      { fileName: 'here', text: stationFile(changed), basedOn },
      bench.signal,
    );
  await expect(keep(0, { name: 'Another' })).rejects.toMatchObject({
    refusal: {
      code: 'not-new',
      where: 'id "slipway"',
      help: 'Slipway 2 has it already; choose another id, or open that station and change its design',
    },
  });
  expect((await row(bench))?.name).toBe('Slipway 2');
  expect((await keep(1, { name: 'Slipway 3' })).revision).toBe(2);
  await expect(keep(1, { name: 'Slipway 4' })).rejects.toMatchObject({
    refusal: { code: 'changed-meanwhile', where: 'design of Slipway 4' },
  });
  expect((await row(bench))?.name).toBe('Slipway 3');
  expect(await keep(0, { id: 'tar-steps', name: '09 Tar Steps' })).toEqual({
    stationId: 'tar-steps',
    revision: 1,
  });
});
