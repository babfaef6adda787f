import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it, vi } from 'vitest';
import { createBackups } from '../../../electron/backend/services/backups.ts';
import { throwAwayFolder } from '../../support/archive.ts';
import { never } from '../../support/two-laptops.ts';
import { joined } from './joined.ts';

it('backs up over the bridge, tells how far it is, and lists what was made', async () => {
  const bench = await joined();
  await bench.endOf(await bench.start());
  expect((await bench.handlers['backups.list']({}, never)).backups).toEqual([]);
  const made = await bench.handlers['backups.make']({ folder: null }, never);
  expect(made).toMatchObject({ sweeps: 1, broken: 0 });
  const { backups, folder, archiveBytes } = await bench.handlers['backups.list']({}, never);
  expect(backups).toEqual([made]);
  expect(folder).toBe(join(bench.folder, 'backups'));
  expect(archiveBytes).toBeGreaterThan(10_000);
  const stick = throwAwayFolder();
  await bench.handlers['backups.make']({ folder: stick }, never);
  expect(readdirSync(stick)).toHaveLength(2);
});

it('waits for the sweep: none is copied while one is read', async () => {
  const bench = await joined();
  const sweepId = await bench.start();
  await expect(bench.handlers['backups.make']({ folder: null }, never)).rejects.toThrow(
    /a sweep is being read; back up when it has ended/,
  );
  await bench.endOf(sweepId);
});

it('makes one a minute after the start, and the next when a day has gone by', async () => {
  const bench = await joined();
  await bench.endOf(await bench.start());
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  try {
    let at = new Date('2026-03-02T08:00:00Z');
    const { archive } = bench;
    const log = { info: () => undefined, warn: () => undefined } as never;
    const backups = createBackups(
      { archive, emit: () => undefined, now: () => at, newId: () => '', log },
      { running: () => null },
    );
    const made = async (hours: number) => {
      at = new Date(at.getTime() + hours * 3_600_000);
      await vi.advanceTimersByTimeAsync(601_000);
    };
    const become = (count: number) =>
      vi.waitFor(() => expect(backups.list().backups).toHaveLength(count), { timeout: 20_000 });
    await made(0);
    await become(1);
    await made(3);
    await become(1);
    await made(22);
    await become(2);
    await backups.close();
  } finally {
    vi.useRealTimers();
  }
});
