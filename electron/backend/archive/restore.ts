import { randomUUID } from 'node:crypto';
import { constants, existsSync, mkdirSync, renameSync, rmSync } from 'node:fs';
import { copyFile } from 'node:fs/promises';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { ArchiveFault, archiveFaultOf } from './archive-fault.ts';
import { prove } from './backup.ts';
import { readFacts } from './backup-list.ts';
import { makeDurable } from './durability.ts';
import { APPLICATION_ID, readFileHeader } from './file-header.ts';
import { lockFolder } from './folder-lock.ts';
import { linkPending } from './link-pending.ts';
import { writeMarker } from './marker.ts';
import { migrate, refuseNewer, steps } from './migrate.ts';
import { fileSha256, nameForGood, syncFolder } from './on-disk.ts';
import { ARCHIVE_FILE } from './open.ts';
import { unmarkRunning } from './running-mark.ts';

export type Restored = Readonly<{
  records: number;
  sweeps: number;
  /** Where the archive that was there is now; null where there was none. */
  keptAside: string | null;
}>;

export type RestoreWork = Readonly<{
  /** The folder of the archive. */
  folder: string;
  /** The backup, or an archive that was closed; it stays as it is. */
  from: string;
  nowMs: number;
  signal: AbortSignal;
  told?: (records: number) => void;
}>;

const ASIDE = 'tiltwright-kept-aside-';
const unfit = (path: string, help: string, cause?: unknown) =>
  new ArchiveFault('not-a-database', path, `${help}; nothing was changed`, cause);

/** Everything that can be told of a backup before it is copied. */
async function refuseUnfit(from: string): Promise<void> {
  const header = readFileHeader(from);
  switch (header.kind) {
    case 'absent':
      throw unfit(from, 'no such file; name a backup (tiltwright-….sqlite) with --from');
    case 'empty':
    case 'not-a-database':
      throw unfit(from, 'this file is not an archive; name another backup');
    case 'database':
      if (header.applicationId !== APPLICATION_ID)
        throw unfit(from, 'this is the database of another program; name a backup of Tiltwright');
      refuseNewer(header.userVersion, steps.length, from);
  }
  if (existsSync(`${from}-wal`))
    throw unfit(
      from,
      'this is an archive in use, not a backup: its newest records are in the file beside it; make a backup of it there',
    );
  const facts = readFacts(from);
  if (facts !== null && (await fileSha256(from)) !== facts.sha256)
    throw unfit(
      from,
      'this backup is not the file that was written: a drive has changed it; use another one',
    );
}

/**
 * A copied backup as an archive that goes on: of this program's version, whole, and as a device of its own, so that what
 * is recorded from now on is never taken for what the archive recorded after its backup was made.
 */
async function prepare(
  copy: string,
  { signal, told, from }: RestoreWork,
): Promise<Omit<Restored, 'keptAside'>> {
  const db = new Database(copy);
  try {
    makeDurable(db, copy);
    migrate(db);
    linkPending(db);
    const { verified } = await prove(db, signal, told);
    const [first] = verified.broken;
    if (first !== undefined)
      throw unfit(
        from,
        `${verified.broken.length} of its records are not as they were recorded (${first.words})`,
      );
    beginChain(db);
    const mode = db.pragma('journal_mode = DELETE', { simple: true });
    if (mode !== 'delete') throw new Error(`the copy stays in ${String(mode)} mode`);
    return { records: verified.records, sweeps: verified.sweeps };
  } finally {
    db.close();
  }
}

/** From here on this archive writes as another device. */
export function beginChain(db: Database.Database): void {
  db.transaction(() => {
    const { lastInsertRowid } = db.prepare('INSERT INTO device (device_id) VALUES (?)').run(randomUUID());
    db.prepare('INSERT INTO own_device (device) VALUES (?)').run(lastInsertRowid);
  }).immediate();
}

/**
 * Moves an archive aside under a name with the day and the time, its log along with it. The file goes first: while only
 * its log is left, no program takes the folder for one without an archive.
 * @returns  its new path, or null where there was none
 */
export function putAside(folder: string, nowMs: number): string | null {
  const path = join(folder, ARCHIVE_FILE);
  const stamp = new Date(nowMs).toISOString().slice(0, 19).replace(/[-:]/g, '');
  let aside = join(folder, `${ASIDE}${stamp}Z.sqlite`);
  for (let more = 2; existsSync(aside) || existsSync(`${aside}-wal`); more += 1)
    aside = join(folder, `${ASIDE}${stamp}Z-${more}.sqlite`);
  let moved = false;
  for (const part of ['', '-wal', '-journal'])
    if (existsSync(`${path}${part}`)) {
      renameSync(`${path}${part}`, `${aside}${part}`);
      moved = true;
    }
  // An index of the log, made anew at the next opening; of another log it would be wrong.
  rmSync(`${path}-shm`, { force: true });
  unmarkRunning(folder);
  syncFolder(folder);
  return moved ? aside : null;
}

/**
 * Puts a backup in the place of the archive. The backup is copied and looked through before anything is moved; what was
 * there is kept aside, never deleted.
 * @throws  ArchiveFault with everything as it was; `in-use` while a program has the archive open
 */
export async function restoreArchive(work: RestoreWork): Promise<Restored> {
  const { folder, from, nowMs } = work;
  mkdirSync(folder, { recursive: true });
  const unlock = lockFolder(folder);
  const copy = join(folder, 'tiltwright-restoring.sqlite');
  const clear = () => {
    for (const part of ['', '-wal', '-shm', '-journal']) rmSync(`${copy}${part}`, { force: true });
  };
  try {
    await refuseUnfit(from);
    clear();
    await copyFile(from, copy, constants.COPYFILE_FICLONE);
    const found = await prepare(copy, work);
    const keptAside = putAside(folder, nowMs);
    await nameForGood(copy, join(folder, ARCHIVE_FILE));
    writeMarker(folder);
    return { ...found, keptAside };
  } catch (fault) {
    throw archiveFaultOf(fault, from);
  } finally {
    clear();
    unlock();
  }
}
