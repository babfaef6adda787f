import { closeSync, mkdirSync, openSync } from 'node:fs';
import { basename } from 'node:path';
import Database from 'better-sqlite3';
import { ArchiveFault, archiveCommand, archiveFaultOf, sqliteCodeOf } from './archive-fault.ts';
import { backupFolderOf, lastVerified, listBackups } from './backup-list.ts';
import { APPLICATION_ID, type FileHeader, readFileHeader } from './file-header.ts';
import { lockFolder } from './folder-lock.ts';
import { hasMarker, MARKER_FILE } from './marker.ts';
import { refuseNewer } from './migrate.ts';
import { clearLookAlone, damageIn, goesOnFrom, hasLog, lookAlone, lookWithoutTrace } from './own-log.ts';
import { logIsMissing, RUNNING_FILE } from './running-mark.ts';

/** What can be done where the archive can't be opened; one line, to stand behind what is wrong. */
function wayOn(code: ArchiveFault['code'], folder: string): string | null {
  if (code !== 'damaged' && code !== 'emptied' && code !== 'not-a-database') return null;
  const last = lastVerified(listBackups(backupFolderOf(folder)));
  const restore =
    last === undefined
      ? `no verified backup is beside it: put one of another drive back with ${archiveCommand('restore --from FILE', folder)}`
      : `put back the backup of ${last.facts.madeAt.slice(0, 16).replace('T', ' ')} UTC (${last.facts.records} records) with ${archiveCommand('restore', folder)}`;
  switch (code) {
    case 'damaged':
      return `${restore}, or take out what can be read with ${archiveCommand('salvage', folder)}; both keep this file aside`;
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

function headerOf(path: string): FileHeader {
  try {
    const header = readFileHeader(path);
    // SQLite would open it for reading alone, and nobody would know before the first record.
    if (header.kind === 'database') closeSync(openSync(path, 'r+'));
    return header;
  } catch (fault) {
    throw archiveFaultOf(fault, path);
  }
}

/** What can be told from the file alone, before SQLite touches it. */
export function refuseByHeader(path: string, folder: string, known: number): void {
  const header = headerOf(path);
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
      // Once something new was recorded without it, the log could not be put back any more.
      if (logIsMissing(folder, path))
        throw new ArchiveFault(
          'log-missing',
          path,
          `the last program was killed, and its log with the newest records, ${basename(path)}-wal, is not beside this file any more; put it back from where the archive was copied or moved, or delete ${RUNNING_FILE} to go on with what is in the archive. Nothing was changed`,
        );
      return;
  }
}

/**
 * What SQLite sees of an archive that is there, its write-ahead log included. The file is only read: a connection that
 * may write puts what is in the log into the file when it is closed, whosever log that is.
 */
export function refuseByLook(path: string, folder: string, known: number): void {
  if (readFileHeader(path).kind !== 'database') return;
  clearLookAlone(path);
  const alone = hasLog(path) ? lookAlone(path, false) : null;
  lookWithoutTrace(path, () => {
    let db: Database.Database | undefined;
    try {
      db = new Database(path, { readonly: true, fileMustExist: true });
      refuseByContent(db, folder, known);
      if (alone !== null && !goesOnFrom(db, alone)) throw foreignLog(path);
    } catch (fault) {
      db?.close();
      throw alone !== null && isDamage(fault) && lookAlone(path, true).isSound
        ? foreignLog(path, fault)
        : fault;
    } finally {
      db?.close();
    }
  });
}

const isDamage = (fault: unknown): boolean =>
  (fault instanceof ArchiveFault && fault.code === 'damaged') ||
  /^SQLITE_(CORRUPT|NOTADB)/.test(sqliteCodeOf(fault) ?? '');

const foreignLog = (path: string, cause?: unknown) =>
  new ArchiveFault(
    'foreign-log',
    `${path}-wal`,
    `this is the log of another file, and would damage the archive beside it; move ${basename(path)}-wal into another folder and start again. Nothing was changed`,
    cause,
  );

function refuseByContent(db: Database.Database, folder: string, known: number): void {
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
  const damage = damageIn(db);
  if (damage !== null) throw new ArchiveFault('damaged', db.name, `the archive is damaged (${damage})`);
}
