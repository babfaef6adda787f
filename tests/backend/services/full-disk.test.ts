import { expect, it, vi } from 'vitest';
import { lookInto, openTestArchive } from '../../support/archive.ts';
import { fillTheDisk, freeTheDisk } from '../../support/archive-connection.ts';
import { joined, refusalOf } from './joined.ts';

vi.mock('better-sqlite3', async (original) =>
  (await import('../../support/watched-sqlite.ts')).watched(await original()),
);

it('ends the sweep as partial, loses no acknowledged reading, stays up, and keeps the rest once there is room', async () => {
  const bench = await joined();
  // The first reading comes with the head of its tape, which holds the whole plan.
  fillTheDisk(4);
  const sweepId = await bench.start(2000);
  const end = await bench.endOf(sweepId);
  const acknowledged = bench.readCount();
  expect(end).toMatchObject({
    state: 'partial',
    readingCount: acknowledged,
    reason: expect.stringContaining('the disk takes no more'),
  });
  expect(acknowledged).toBeGreaterThan(0);
  expect(acknowledged).toBeLessThan(2000);

  const sweep = await bench.open(sweepId);
  expect(sweep.readings).toHaveLength(acknowledged);
  expect(sweep.summary).toMatchObject({
    state: 'partial',
    readingCount: acknowledged,
    endReason: end.reason,
    endedAt: '2026-03-02T08:00:00.000Z',
  });
  expect((await bench.sheet()).sweeps).toHaveLength(1);
  expect((await bench.handlers['stations.list']({}, bench.signal)).stations[0]?.sweepCount).toBe(1);

  freeTheDisk();
  const next = await bench.start(3);
  expect(await bench.endOf(next)).toMatchObject({ state: 'complete' });
  // What had been read but not told is kept as well.
  const settled = await bench.open(sweepId);
  expect(settled.readings.length).toBeGreaterThanOrEqual(acknowledged);
  // A quick machine may have read everything before the disk said that it is full.
  expect(settled.summary.state).toBe(settled.readings.length === 2000 ? 'complete' : 'partial');
  expect(settled.summary.readingCount).toBe(settled.readings.length);
});

it('keeps what was acknowledged when the program ends on the full disk; the sweep is partial at the next start', async () => {
  const bench = await joined();
  // The first reading comes with the head of its tape, which holds the whole plan.
  fillTheDisk(4);
  const sweepId = await bench.start(2000);
  await bench.endOf(sweepId);
  const acknowledged = bench.readCount();
  await bench.close();
  bench.archive.close();
  const again = openTestArchive(bench.folder);
  const row = again.sweeps.byId(sweepId);
  expect(row).toMatchObject({ state: 'partial' });
  expect(row?.readingCount).toBeGreaterThanOrEqual(acknowledged);
  expect(again.sweeps.readings(row?.seq ?? 0)).toHaveLength(row?.readingCount ?? -1);
  again.close();
  expect(lookInto(bench.folder, (db) => db.pragma('quick_check', { simple: true }))).toBe('ok');
});

it('says so in one line when anything else can not be kept', async () => {
  const bench = await joined();
  const text = `${`# ${'x'.repeat(98)}\n`.repeat(2000)}frequency_mhz,level_dbmv\n54,36\n`;
  fillTheDisk();
  const importing = bench.handlers['sweeps.import'](
    {
      visitId: bench.visit.visitId,
      portName: 'forward output',
      purpose: 'check',
      fileName: 'a.csv',
      text,
      testPointLossDb: 0,
    },
    bench.signal,
  );
  await expect(importing).rejects.toThrow(/the disk takes no more \(SQLITE_FULL\); free some space/);
  expect((await bench.sheet()).sweeps).toEqual([]);
});

it('begins no sweep on a disk that is nearly full', async () => {
  const bench = await joined({ archive: (archive) => ({ ...archive, freeBytes: () => 120_400_000 }) });
  expect(await refusalOf(() => bench.start())).toMatchObject({
    code: 'disk-full',
    help: 'only 120 MB are free on this disk; free 200 MB, so that what is read can be kept',
  });
  expect((await bench.sheet()).sweeps).toEqual([]);
});
