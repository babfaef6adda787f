import { join } from 'node:path';
import Database from 'better-sqlite3';
import { ArchiveFault, sqliteCodeOf } from './archive-fault.ts';

export const LOCK_FILE = 'tiltwright.lock';

/**
 * Makes this program the only writer of a folder. The lock is an exclusive transaction on a file of its own: the
 * operating system takes it back when the program ends in any way, a kill included, so that no stale lock is left.
 * @returns  gives the folder free again
 * @throws   ArchiveFault `in-use` when another program, or another archive of this one, holds it
 */
export function lockFolder(folder: string): () => void {
  const path = join(folder, LOCK_FILE);
  const lock = new Database(path, { timeout: 0 });
  try {
    lock.exec('BEGIN EXCLUSIVE');
  } catch (fault) {
    lock.close();
    const code = sqliteCodeOf(fault);
    if (code?.startsWith('SQLITE_BUSY') || code?.startsWith('SQLITE_LOCKED'))
      throw new ArchiveFault(
        'in-use',
        folder,
        'another Tiltwright is at work in this folder; close it, or start this one with --data and another folder',
        fault,
      );
    throw fault;
  }
  return () => {
    if (lock.open) lock.close();
  };
}
