import { existsSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

export const RUNNING_FILE = 'tiltwright.running';

/**
 * A file that is there while a program has the archive open. Where it was left behind, the program was killed, and the
 * write-ahead log with its newest records must lie beside the archive: SQLite itself doesn't miss a log that is gone.
 */
export function markRunning(folder: string): void {
  try {
    writeFileSync(
      join(folder, RUNNING_FILE),
      'The archive beside this file is open, or its program was killed. Its newest records are then in tiltwright.sqlite-wal:\n' +
        'whoever copies the archive by hand takes both.\n',
    );
  } catch {
    // On a full disk the archive can still be read.
  }
}

/** Before the archive is closed: from then on its log goes, and nobody shall miss it. */
export function unmarkRunning(folder: string): void {
  try {
    rmSync(join(folder, RUNNING_FILE), { force: true });
  } catch {
    // Closing goes on; the next opening may then ask about a log that went as it should.
  }
}

/** @param path  of the archive's file, which is there */
export const logIsMissing = (folder: string, path: string): boolean =>
  existsSync(join(folder, RUNNING_FILE)) && !existsSync(`${path}-wal`);
