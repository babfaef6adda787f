import {
  closeSync,
  copyFileSync,
  existsSync,
  fstatSync,
  ftruncateSync,
  openSync,
  readSync,
  rmSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { ArchiveFault, archiveCommand, archiveFaultOf } from './archive-fault.ts';
import { type Backup, backupFolderOf, lastVerified, listBackups } from './backup-list.ts';
import { lockFolder } from './folder-lock.ts';
import { writeMarker } from './marker.ts';
import { migrate, refuseNewer, steps } from './migrate.ts';
import { nameForGood } from './on-disk.ts';
import { ARCHIVE_FILE } from './open.ts';
import { putAside } from './restore.ts';
import type { Relinked } from './salvage-chain.ts';
import { takeReadable } from './salvage-rows.ts';

export type Salvaged = Relinked &
  Readonly<{
    /** The backup that filled the holes; null where there was none that fits. */
    filledFrom: string | null;
    /** Where the damaged file is now. */
    keptAside: string | null;
  }>;

/** A header that says nonsense must not fill the disk. */
const MOST_PADDED_BYTES = 16e9;

const beyondSalvage = (path: string, why: string, cause?: unknown) =>
  new ArchiveFault(
    'damaged',
    path,
    `nothing can be read out of this file (${why}); put a backup back with ${archiveCommand('restore', dirname(path))}. Nothing was changed`,
    cause,
  );

/**
 * A file that was cut short gets zeros for what is gone, in the copy: SQLite doesn't look into one that is shorter than
 * it says. Offsets as SQLite's published file format has them: page size at 16, pages at 28, both big-endian.
 */
function padToLength(copy: string): void {
  const header = Buffer.alloc(32);
  const file = openSync(copy, 'r+');
  try {
    if (readSync(file, header, 0, 32, 0) < 32) return;
    const pageSize = header.readUInt16BE(16);
    const bytes = (pageSize === 1 ? 65_536 : pageSize) * header.readUInt32BE(28);
    if (bytes > fstatSync(file).size && bytes <= MOST_PADDED_BYTES) ftruncateSync(file, bytes);
  } finally {
    closeSync(file);
  }
}

/** @param path  the archive's own, for what is said */
function openDamaged(copy: string, path: string): Database.Database {
  let db: Database.Database | undefined;
  try {
    // Not read-only: the log beside the copy is read into it.
    db = new Database(copy);
    const tables = Number(db.prepare('SELECT count(*) FROM sqlite_schema').pluck().get());
    if (tables === 0) throw new Error('its list of tables is gone');
    const version = Number(db.pragma('user_version', { simple: true }));
    refuseNewer(version, steps.length, path);
    if (version !== steps.length)
      throw new Error(`it is of version ${version}, and the program of ${steps.length}`);
    return db;
  } catch (fault) {
    db?.close();
    if (fault instanceof ArchiveFault) throw fault;
    throw beyondSalvage(path, fault instanceof Error ? fault.message : String(fault), fault);
  }
}

/** The newest verified backup, where its tables are those of this program: only there is a row the same row. */
function fillerFrom(backup: Backup | undefined): Database.Database | undefined {
  if (backup === undefined) return undefined;
  const db = new Database(backup.path, { readonly: true });
  if (db.pragma('user_version', { simple: true }) === steps.length) return db;
  db.close();
  return undefined;
}

function salvageInto(
  made: string,
  damaged: Database.Database,
  filler: Database.Database | undefined,
  path: string,
): Relinked {
  const to = new Database(made);
  try {
    // Until it has its name, this file may be lost; then all of it is put on the disk at once.
    to.pragma('synchronous = OFF');
    migrate(to);
    // What the backup has was looked through, so it goes first.
    const found = takeReadable(to, filler === undefined ? [damaged] : [filler, damaged]);
    if (found.proven + found.unproven === 0) throw beyondSalvage(path, 'no record can be read');
    const check = to.pragma('integrity_check(1)', { simple: true });
    if (check !== 'ok') throw new Error(`the salvaged archive is not sound: ${String(check)}`);
    return found;
  } finally {
    to.close();
  }
}

/**
 * Takes what can be read out of a damaged archive into a new one, fills its holes from the newest verified backup beside
 * it, and puts it in the damaged one's place, which is kept aside. Records are never changed, so a row of the backup is
 * the row that was lost; the chain tells which of the others are as they were recorded.
 * @throws  ArchiveFault with everything as it was; `in-use` while a program has the archive open
 */
export async function salvageArchive(
  options: Readonly<{ folder: string; nowMs: number }>,
): Promise<Salvaged> {
  const { folder, nowMs } = options;
  const path = join(folder, ARCHIVE_FILE);
  if (!existsSync(path)) throw beyondSalvage(path, 'it is not there');
  const unlock = lockFolder(folder);
  const copy = join(folder, 'tiltwright-damaged.sqlite');
  const made = join(folder, 'tiltwright-salvaged.sqlite');
  const clear = () => {
    for (const file of [copy, made])
      for (const part of ['', '-wal', '-shm', '-journal']) rmSync(`${file}${part}`, { force: true });
  };
  try {
    clear();
    for (const part of ['', '-wal'])
      if (existsSync(`${path}${part}`)) copyFileSync(`${path}${part}`, `${copy}${part}`);
    padToLength(copy);
    const backup = lastVerified(listBackups(backupFolderOf(folder)));
    const damaged = openDamaged(copy, path);
    const filler = fillerFrom(backup);
    let found: Relinked;
    try {
      found = salvageInto(made, damaged, filler, path);
    } finally {
      damaged.close();
      filler?.close();
    }
    const keptAside = putAside(folder, nowMs);
    await nameForGood(made, path);
    writeMarker(folder);
    return { ...found, filledFrom: filler === undefined ? null : (backup?.path ?? null), keptAside };
  } catch (fault) {
    throw archiveFaultOf(fault, path);
  } finally {
    clear();
    unlock();
  }
}
