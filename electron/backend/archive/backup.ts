import { existsSync, mkdirSync, rmSync, statfsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { setImmediate as turn } from 'node:timers/promises';
import Database from 'better-sqlite3';
import { ArchiveFault, isDiskTrouble, sqliteCodeOf } from './archive-fault.ts';
import { type Backup, type BackupFacts, freeBackupName, removeLeft, writeFacts } from './backup-list.ts';
import { createChain } from './chain.ts';
import { type Copies, type Extent, extentOf } from './copies.ts';
import { fileSha256, nameForGood, syncFile } from './on-disk.ts';
import { type Verified, verifyArchive } from './verify.ts';

const PORTION_MS = 10;

export type BackupWork = Readonly<{
  /** Where it goes; made when it isn't there. */
  folder: string;
  madeAtMs: number;
  program: string;
  signal: AbortSignal;
  told: (what: 'copying' | 'checking', done: number, total: number) => void;
}>;

const noBackup = (where: string, help: string, cause?: unknown) =>
  new ArchiveFault('no-backup', where, help, cause);

/** A copy that is looked through as a whole: SQLite's own check, then every record against its chain. */
export async function prove(
  db: Database.Database,
  signal: AbortSignal,
  told: (records: number) => void = () => undefined,
): Promise<Readonly<{ verified: Verified; extent: Extent }>> {
  const check = db.pragma('quick_check(1)', { simple: true });
  if (check !== 'ok')
    throw new ArchiveFault(
      'damaged',
      db.name,
      `this copy is damaged (${String(check).replace(/\s+/g, ' ')}); use another one`,
    );
  const chain = createChain(db);
  const work = verifyArchive(db, chain);
  let since = performance.now();
  for (;;) {
    const step = work.next();
    if (step.done === true) return { verified: step.value, extent: extentOf(db, chain) };
    if (performance.now() - since < PORTION_MS) continue;
    told(step.value);
    await turn();
    signal.throwIfAborted();
    since = performance.now();
  }
}

/** @throws  ArchiveFault when the copy lacks what the archive had when it was begun, or has what it never had */
function holdAgainst(archive: Copies, before: Extent, copy: Extent, path: string): void {
  const there = archive.upTo(copy);
  const goesAsFar = copy.head.device === before.head.device && copy.head.seq >= before.head.seq;
  const sameHead = copy.head.seq === 0 || there.hash === copy.head.hash;
  if (!goesAsFar || !sameHead || there.links !== copy.links)
    throw noBackup(
      path,
      `the copy is not what the archive holds (${copy.links} records against ${there.links}); nothing older was let go: try again, and look at the drive`,
    );
}

function refuseWithoutRoom(folder: string, bytes: number): void {
  const disk = statfsSync(folder);
  const free = disk.bavail * disk.bsize;
  // The check may need a little of its own, and a drive that is full to the brim helps nobody.
  if (free < bytes * 1.05 + 1_000_000)
    throw noBackup(
      folder,
      `the backup needs ${Math.ceil(bytes / 1e6)} MB, and ${Math.floor(free / 1e6)} MB are free there; make room, or name another drive`,
    );
}

/**
 * Copies the archive while it is in use, looks the copy through, and only then gives it its name. What goes wrong leaves
 * no file that could be taken for a backup.
 * @throws  ArchiveFault, or the signal's reason
 */
export async function backUp(archive: Copies, work: BackupWork): Promise<Backup> {
  const { folder, madeAtMs, program, signal, told } = work;
  const path = join(folder, freeBackupName(folder, madeAtMs));
  const partial = `${path}.partial`;
  try {
    mkdirSync(folder, { recursive: true });
    removeLeft(folder);
    refuseWithoutRoom(folder, archive.bytes());
    const before = archive.extent();
    await archive.copyTo(partial, (done, total) => {
      signal.throwIfAborted();
      told('copying', done, total);
    });
    makeOneFile(partial);
    const db = new Database(partial, { readonly: true });
    let facts: BackupFacts;
    try {
      const { verified, extent } = await prove(db, signal, (records) =>
        told('checking', records, before.links),
      );
      holdAgainst(archive, before, extent, path);
      facts = {
        format: 'tiltwright-backup/1',
        madeAt: new Date(madeAtMs).toISOString(),
        program,
        device: extent.head.device,
        seq: extent.head.seq,
        hash: extent.head.hash,
        records: verified.records,
        sweeps: verified.sweeps,
        broken: verified.broken.length,
        bytes: statSync(partial).size,
        sha256: '',
      };
    } finally {
      db.close();
    }
    syncFile(partial);
    facts = { ...facts, sha256: await fileSha256(partial) };
    // The facts first: a file with a backup's name is then always one that was looked through.
    await writeFacts(path, facts);
    await nameForGood(partial, path);
    return { path, facts };
  } catch (fault) {
    if (existsSync(folder)) for (const left of [partial, `${partial}-journal`]) tryToRemove(left);
    throw backupFaultOf(fault, folder);
  }
}

/** What stopped the backup is told, not that its rest can't be removed: it has no backup's name, and goes with the next one. */
function tryToRemove(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    // A drive that was pulled out, or no folder at all.
  }
}

/** The archive's log is a file of its own; a copy must be one file that also opens where nothing can be written. */
function makeOneFile(path: string): void {
  const db = new Database(path);
  try {
    db.pragma('synchronous = FULL');
    const mode = db.pragma('journal_mode = DELETE', { simple: true });
    if (mode !== 'delete') throw noBackup(path, `the copy stays in ${String(mode)} mode; try again`);
  } finally {
    db.close();
  }
}

function backupFaultOf(fault: unknown, folder: string): unknown {
  if (fault instanceof ArchiveFault) return fault;
  const code = sqliteCodeOf(fault) ?? (fault instanceof Error && 'code' in fault ? String(fault.code) : '');
  if (isDiskTrouble(fault) || /^(ENOSPC|EIO|EROFS|EACCES|EPERM|ENOENT|ENOTDIR)$/.test(code))
    return noBackup(
      folder,
      `the backup can't be written there (${code}); the older ones are as they were: make room, or name another folder`,
      fault,
    );
  return fault;
}
