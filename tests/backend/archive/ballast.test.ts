import { existsSync, mkdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { BALLAST_BYTES, BALLAST_FILE, createBallast } from '../../../electron/backend/archive/ballast.ts';
import { throwAwayFolder } from '../../support/archive.ts';

const BLOCK_BYTES = 512;

it('takes up its room on the disk, is made once, and gives its room back once', async () => {
  const folder = throwAwayFolder();
  const path = join(folder, BALLAST_FILE);
  const ballast = createBallast(folder);
  let freed = 0;
  ballast.whenFreed(() => {
    freed += 1;
  });
  expect([ballast.isThere(), ballast.free()]).toEqual([false, false]);
  expect(await ballast.make()).toBe(true);
  const { size, blocks, mtimeMs } = statSync(path);
  expect(size).toBe(BALLAST_BYTES);
  // A file with a hole in it has a size and no room. Windows counts no blocks.
  if (process.platform !== 'win32') expect(blocks * BLOCK_BYTES).toBeGreaterThanOrEqual(BALLAST_BYTES);
  expect(await ballast.make()).toBe(true);
  expect(statSync(path).mtimeMs).toBe(mtimeMs);
  expect([ballast.isThere(), freed]).toEqual([true, 0]);
  expect([ballast.free(), ballast.free(), ballast.isThere(), freed]).toEqual([true, false, false, 1]);
});

it('is made again where a killed program left a part of it', async () => {
  const folder = throwAwayFolder();
  writeFileSync(join(folder, BALLAST_FILE), 'a part');
  writeFileSync(join(folder, `${BALLAST_FILE}.partial`), 'another part');
  const ballast = createBallast(folder);
  expect(ballast.isThere()).toBe(false);
  expect(await ballast.make()).toBe(true);
  expect([ballast.isThere(), existsSync(join(folder, `${BALLAST_FILE}.partial`))]).toEqual([true, false]);
});

it('that can not be made leaves nothing and is no fault', async () => {
  const folder = throwAwayFolder();
  mkdirSync(join(folder, BALLAST_FILE));
  const ballast = createBallast(folder);
  expect(await ballast.make()).toBe(false);
  const stopped = createBallast(throwAwayFolder());
  expect(await stopped.make(AbortSignal.abort())).toBe(false);
  expect([ballast, stopped].map((one) => one.isThere())).toEqual([false, false]);
  expect(existsSync(join(folder, `${BALLAST_FILE}.partial`))).toBe(false);
});
