import { copyFileSync, existsSync, linkSync, rmSync, statSync } from 'node:fs';
import Database from 'better-sqlite3';

/** SQLite's own look at a whole file: null where it is sound, else what is wrong, in one line. */
export function damageIn(db: Database.Database): string | null {
  const check = db.pragma('quick_check(1)', { simple: true });
  return check === 'ok' ? null : String(check).replace(/\s+/g, ' ');
}

/** Whether a write-ahead log with anything in it lies beside an archive. */
export const hasLog = (path: string): boolean =>
  (statSync(`${path}-wal`, { throwIfNoEntry: false })?.size ?? 0) > 0;

type Link = Readonly<{ seq: number; hash: string }>;

const secondName = (path: string): string => path.replace(/\.sqlite$/, '-without-log.sqlite');

/** What can be told of an archive without its log; nothing where it can't be read so. */
export type Alone = Readonly<{
  isSound: boolean;
  /** The newest record that is in the file itself: records are never deleted, so the log may only add to it. */
  newest: Readonly<{ device: string; link: Link | null }> | null;
}>;

/**
 * Looks at an archive as if no log lay beside it. SQLite finds a log by the file's name, so the file gets a second name
 * for a moment, or a copy where the file system has no second names. Only read, while nobody has the file open.
 * @param withCheck  whether SQLite shall look through all of it, which takes as long as the file is large
 */
export function lookAlone(path: string, withCheck: boolean): Alone {
  const second = secondName(path);
  let db: Database.Database | undefined;
  try {
    clearLookAlone(path);
    try {
      linkSync(path, second);
    } catch {
      copyFileSync(path, second);
    }
    db = new Database(second, { readonly: true });
    return { isSound: !withCheck || damageIn(db) === null, newest: newestIn(db) };
  } catch {
    // A kill in the middle of a checkpoint leaves such a file, and an old one has no such tables; its log makes it whole.
    return { isSound: false, newest: null };
  } finally {
    db?.close();
    clearLookAlone(path);
  }
}

/** What a program that was killed in the middle of such a look left. */
export function clearLookAlone(path: string): void {
  for (const part of ['', '-wal', '-shm']) rmSync(`${secondName(path)}${part}`, { force: true });
}

function newestIn(db: Database.Database): Alone['newest'] {
  const device = db.prepare('SELECT device_id FROM device ORDER BY seq LIMIT 1').pluck().get();
  const link = db.prepare<[], Link>('SELECT seq, hex(hash) hash FROM link ORDER BY seq DESC LIMIT 1').get();
  return typeof device === 'string' ? { device, link: link ?? null } : null;
}

/** Whether an archive, read with its log, still has what the file alone has. */
export function goesOnFrom(db: Database.Database, { newest }: Alone): boolean {
  if (newest === null) return true;
  const hasDevice = db.prepare('SELECT 1 FROM device WHERE device_id = ?').get(newest.device) !== undefined;
  const hashAt = db.prepare<[number], string>('SELECT hex(hash) FROM link WHERE seq = ?').pluck();
  return hasDevice && (newest.link === null || hashAt.get(newest.link.seq) === newest.link.hash);
}

/** Removes what a look at an archive left beside it, where it wasn't there before. */
export function lookWithoutTrace<T>(path: string, look: () => T): T {
  const before = ['-wal', '-shm'].filter((part) => existsSync(`${path}${part}`));
  try {
    return look();
  } finally {
    for (const part of ['-wal', '-shm'])
      if (!before.includes(part)) rmSync(`${path}${part}`, { force: true });
  }
}
