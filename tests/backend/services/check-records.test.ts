import { expect, it } from 'vitest';
import { joined } from './joined.ts';

type Bench = Awaited<ReturnType<typeof joined>>;

/** Enough records for many portions of 10 ms. */
function fill({ archive }: Bench): void {
  archive.write(() => {
    for (let i = 0; i < 6000; i += 1) {
      archive.stations.add(`s${i}`, i);
      archive.stations.addRevision({
        ...{ stationId: `s${i}`, revision: 1, name: 'n', design: '{}', fileName: 'f', addedAtMs: 0 },
      });
    }
  });
}

it('tells how far it is while a sweep is read, whose readings come in between', async () => {
  const bench = await joined({ script: { paceMs: 1 } });
  fill(bench);
  const sweepId = await bench.start(400);
  await bench.until(() => bench.readCount() > 0);
  const before = bench.readCount();
  const { records, broken } = await bench.handlers['archive.verify']({}, bench.signal);
  expect(bench.readCount()).toBeGreaterThan(before + 2);
  expect(await bench.endOf(sweepId)).toMatchObject({ state: 'complete', readingCount: 400 });
  expect(broken).toEqual([]);
  expect(records).toBeGreaterThan(6000);
  const told = bench.sent.flatMap((event) => (event.name === 'verify.progress' ? [event.data] : []));
  expect(told.length).toBeGreaterThan(0);
  for (const { done, total } of told) expect(done).toBeLessThanOrEqual(total);
});

it('ends when it is stopped, with what stopped it, and can be begun again', async () => {
  const bench = await joined();
  fill(bench);
  const stop = new AbortController();
  const checking = bench.handlers['archive.verify']({}, stop.signal);
  await bench.until(() => bench.sent.some(({ name }) => name === 'verify.progress'));
  stop.abort(new Error('enough'));
  await expect(checking).rejects.toThrow('enough');
  expect((await bench.handlers['archive.verify']({}, bench.signal)).broken).toEqual([]);
});

it('holds nothing else up for longer than its portion and what a busy machine adds', async () => {
  const bench = await joined();
  fill(bench);
  let longestMs = 0;
  let since = performance.now();
  const timer = setInterval(() => {
    longestMs = Math.max(longestMs, performance.now() - since);
    since = performance.now();
  }, 1);
  const begunMs = performance.now();
  await bench.handlers['archive.verify']({}, bench.signal);
  const tookMs = performance.now() - begunMs;
  clearInterval(timer);
  expect(tookMs).toBeGreaterThan(50);
  expect(longestMs).toBeLessThan(Math.max(100, tookMs / 3));
});
