import { mkdirSync } from 'node:fs';
import type Database from 'better-sqlite3';
import { ArchiveFault, archiveFaultOf } from './archive-fault.ts';
import { backupFolderOf, lastVerified, listBackups } from './backup-list.ts';
import { APPLICATION_ID, readFileHeader } from './file-header.ts';
import { lockFolder } from './folder-lock.ts';
import { hasMarker, MARKER_FILE } from './marker.ts';
import { refuseNewer } from './migrate.ts';

/** What can be done where the archive can't be opened; one line, to stand behind what is wrong. */
function wayOn(code: ArchiveFault['code'], folder: string): string | null {
  if (code !== 'damaged' && code !== 'emptied' && code !== 'not-a-database') return null;
  const last = lastVerified(listBackups(backupFolderOf(folder)));
  const restore =
    last === undefined
      ? 'no verified backup is beside it: put one of another drive back with "archive restore --from FILE" of the command line'
      : `put back the backup of ${last.facts.madeAt.slice(0, 16).replace('T', ' ')} UTC (${last.facts.records} records) with "archive restore" of the command line`;
  switch (code) {
    case 'damaged':
      return `${restore}, or take out what can be read with "archive salvage"; both keep this file aside`;
    case 'emptied':
      return `${restore}, or delete ${MARKER_FILE} to begin anew`;
    case 'not-a-database':
      return `${restore}, which keeps this file aside, or start with --data and another folder`;
  }
}

/** The fault with what would help: the last verified backup by its day, the command that puts it back. */
export function withWayOn(fault: unknown, folder: string): unknown {
  if (!(fault instanceof ArchiveFault)) return fault;
  const way = wayOn(fault.code, folder);
  return way === null
    ? fault
    : new ArchiveFault(fault.code, fault.where, `${fault.help}; ${way}`, fault.cause);
}

/**
 * The folder, made where it wasn't, and this program its only writer.
 * @throws  ArchiveFault `in-use`, or `read-only` where nothing can be written
 */
export function makeAndLock(folder: string): () => void {
  try {
    mkdirSync(folder, { recursive: true });
    return lockFolder(folder);
  } catch (fault) {
    throw archiveFaultOf(fault, folder);
  }
}

export const notADatabase = (path: string, cause?: unknown) =>
  new ArchiveFault('not-a-database', path, 'this file is not an archive. Nothing was changed', cause);

const emptied = (path: string, how: 'empty' | 'gone') =>
  new ArchiveFault('emptied', path, `an archive was here and is ${how}`);

/** What can be told from the file alone, before SQLite touches it. */
export function refuseByHeader(path: string, folder: string, known: number): void {
  const header = readFileHeader(path);
  switch (header.kind) {
    case 'absent':
    case 'empty':
      if (hasMarker(folder)) throw emptied(path, header.kind === 'empty' ? 'empty' : 'gone');
      return;
    case 'not-a-database':
      throw notADatabase(path);
    case 'database':
      if (header.applicationId !== APPLICATION_ID && header.applicationId !== 0)
        throw new ArchiveFault(
          'not-ours',
          path,
          'this is the database of another program; start with --data and another folder. Nothing was changed',
        );
      refuseNewer(header.userVersion, known, path);
      return;
  }
}

/** What SQLite sees, its write-ahead log included; still before anything is written. */
export function refuseByContent(db: Database.Database, folder: string, known: number): void {
  const applicationId = db.pragma('application_id', { simple: true });
  const tables = Number(db.prepare('SELECT count(*) FROM sqlite_schema').pluck().get());
  // A program killed while it made the archive leaves a database without tables: that one is new.
  if (applicationId !== APPLICATION_ID && tables > 0)
    throw new ArchiveFault(
      'not-ours',
      db.name,
      'this is the database of another program; start with --data and another folder. Nothing was changed',
    );
  if (tables === 0 && hasMarker(folder)) throw emptied(db.name, 'empty');
  refuseNewer(Number(db.pragma('user_version', { simple: true })), known, db.name);
  const check = db.pragma('quick_check(1)', { simple: true });
  if (check !== 'ok')
    throw new ArchiveFault(
      'damaged',
      db.name,
      `the archive is damaged (${String(check).replace(/\s+/g, ' ')})`,
    );
}
