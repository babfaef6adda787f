import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';

const lockFile = (root: string) => path.join(root, 'dist', 'building.lock');

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
}

/** True when this process has the lock now; a lock whose owner died is taken away, and taken at the next try. */
function tryLock(file: string): boolean {
  try {
    writeFileSync(file, String(process.pid), { flag: 'wx' });
    return true;
  } catch {
    const owner = Number(readOwner(file));
    if (Number.isInteger(owner) && owner > 0 && !isAlive(owner)) rmSync(file, { force: true });
    return false;
  }
}

function readOwner(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    // Released between our look and our reading.
    return '';
  }
}

/**
 * One build at a time in one tree: a second start waits for the first one's build instead of emptying its folder.
 * @param isNeeded  asked once the lock is ours: another start may have done the work meanwhile
 */
export async function withBuildLock(
  root: string,
  isNeeded: () => boolean,
  work: () => Promise<void>,
): Promise<void> {
  const file = lockFile(root);
  mkdirSync(path.dirname(file), { recursive: true });
  while (!tryLock(file)) await pause(100);
  try {
    if (isNeeded()) await work();
  } finally {
    rmSync(file, { force: true });
  }
}
