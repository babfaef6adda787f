import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { backUp } from '../../../electron/backend/archive/backup.ts';
import { type Backup, backupFolderOf } from '../../../electron/backend/archive/backup-list.ts';
import { hasMarker } from '../../../electron/backend/archive/marker.ts';
import { steps } from '../../../electron/backend/archive/migrate.ts';
import { ARCHIVE_FILE } from '../../../electron/backend/archive/open.ts';
import { restoreArchive } from '../../../electron/backend/archive/restore.ts';
import { verify } from '../../../electron/backend/services/verify.ts';
import { lookInto, openTestArchive, throwAwayFolder } from '../../support/archive.ts';
import { joined } from '../services/joined.ts';

const signal = new AbortController().signal;
const nowMs = Date.parse('2026-03-03T07:30:00Z');
const nothing = () => undefined;

/** An archive with a backup, and a sweep that came after it. */
async function backedUp() {
  const bench = await joined();
  const first = await bench.start();
  await bench.endOf(first);
  const backup = await backUp(bench.archive.copies, {
    folder: backupFolderOf(bench.folder),
    madeAtMs: Date.parse('2026-03-02T09:00:00Z'),
    program: '0',
    signal,
    told: nothing,
  });
  const later = await bench.start();
  await bench.endOf(later);
  await bench.close();
  bench.archive.close();
  return { folder: bench.folder, backup, first, later, path: join(bench.folder, ARCHIVE_FILE) };
}
const restore = ({ folder, backup }: Readonly<{ folder: string; backup: Backup }>) =>
  restoreArchive({ folder, from: backup.path, nowMs, signal });

describe('a backup put in the place of a damaged archive', () => {
  it('is the archive of that day, goes on as a device of its own, and the damaged file is kept', async () => {
    const made = await backedUp();
    const { folder, backup, first, later, path } = made;
    const damaged = readFileSync(path);
    damaged.fill(0, 5 * 4096, 30 * 4096);
    writeFileSync(path, damaged);
    expect(() => openTestArchive(folder)).toThrow(/damaged/);

    const restored = await restore(made);
    expect(restored).toMatchObject({ sweeps: 1, records: backup.facts.records });
    expect(restored.keptAside).toBe(join(folder, 'tiltwright-kept-aside-20260303T073000Z.sqlite'));
    expect(readFileSync(restored.keptAside ?? '').equals(damaged)).toBe(true);
    expect(existsSync(backup.path)).toBe(true);

    const again = await joined({ folder, newId: () => crypto.randomUUID() });
    expect(again.archive.sweeps.byId(first)).toMatchObject({ state: 'complete' });
    expect(again.archive.sweeps.byId(later)).toBeUndefined();
    const next = await again.start();
    expect(await again.endOf(next)).toMatchObject({ state: 'complete' });
    const head = again.archive.head();
    expect(head.device).not.toBe(backup.facts.device);
    expect(head.seq).toBeGreaterThan(0);
    expect((await verify(again.archive, signal)).broken).toEqual([]);
    expect((await again.sheet()).sweeps.map(({ sweepId }) => sweepId)).toEqual([next, first]);
  });

  it('can be done where the archive is gone, empty, or was never', async () => {
    const made = await backedUp();
    writeFileSync(made.path, '');
    expect(() => openTestArchive(made.folder)).toThrow(/was here and is empty/);
    expect((await restore(made)).keptAside).not.toBeNull();
    openTestArchive(made.folder).close();

    const anew = join(throwAwayFolder(), 'new laptop');
    expect(await restore({ ...made, folder: anew })).toMatchObject({ keptAside: null, sweeps: 1 });
    expect(hasMarker(anew)).toBe(true);
    expect(openTestArchive(anew).sweeps.byId(made.first)).toBeDefined();
  });

  it('takes the log of the damaged archive aside with it, so that it is never read into the restored one', async () => {
    const made = await backedUp();
    writeFileSync(`${made.path}-wal`, 'what waits');
    const { keptAside } = await restore(made);
    expect(readFileSync(`${keptAside}-wal`, 'utf8')).toBe('what waits');
    expect(existsSync(`${made.path}-wal`)).toBe(false);
    // A second one in the same second gets a name of its own.
    const second = await restore(made);
    expect(second.keptAside).toMatch(/-2\.sqlite$/);
    expect(readdirSync(made.folder).filter((name) => /restoring|partial/.test(name))).toEqual([]);
  });

  it('may come from read-only media: it is copied, and nothing is written beside it', async () => {
    const made = await backedUp();
    const stick = throwAwayFolder();
    const from = join(stick, 'copied by hand.sqlite');
    copyFileSync(made.backup.path, from);
    const folder = throwAwayFolder();
    await restoreArchive({ folder, from, nowMs, signal });
    expect(readdirSync(stick)).toEqual(['copied by hand.sqlite']);
    expect(readFileSync(from).equals(readFileSync(made.backup.path))).toBe(true);
  });
});

describe('is refused, with everything as it was,', () => {
  const trouble: readonly (readonly [string, (path: string) => void, RegExp])[] = [
    ['a backup cut short', (path) => truncateSync(path, 40_000), /damaged|malformed/],
    ['an empty one', (path) => writeFileSync(path, ''), /is not an archive/],
    ['one of nothing but zeros', (path) => writeFileSync(path, Buffer.alloc(90_000)), /is not an archive/],
    [
      'one with a byte that a drive changed, which SQLite does not see',
      (path) => {
        const bytes = readFileSync(path);
        bytes[bytes.length - 2000] = (bytes[bytes.length - 2000] ?? 0) ^ 1;
        writeFileSync(path, bytes);
      },
      /is not the file that was written/,
    ],
    ['one that is not there', (path) => writeFileSync(`${path}.moved`, ''), /no such file/],
    [
      'an archive in use, copied without its log',
      (path) => writeFileSync(`${path}-wal`, 'x'),
      /in use, not a backup/,
    ],
  ];
  it.each(trouble)('%s', async (what, harm, words) => {
    const made = await backedUp();
    const before = readFileSync(made.path);
    const from = what.includes('not there') ? `${made.backup.path}.other` : made.backup.path;
    harm(from);
    await expect(restoreArchive({ folder: made.folder, from, nowMs, signal })).rejects.toThrow(words);
    expect(readFileSync(made.path).equals(before)).toBe(true);
    expect(openTestArchive(made.folder).sweeps.byId(made.later)).toBeDefined();
    expect(readdirSync(made.folder).filter((name) => /restoring|aside/.test(name))).toEqual([]);
  });

  it('a backup of a newer program, of another program, and one with a changed record', async () => {
    const made = await backedUp();
    const changed = (sql: string): string => {
      const folder = throwAwayFolder();
      mkdirSync(folder, { recursive: true });
      copyFileSync(made.backup.path, join(folder, ARCHIVE_FILE));
      lookInto(folder, (db) => db.exec(sql));
      return join(folder, ARCHIVE_FILE);
    };
    const attempt = (from: string) => restoreArchive({ folder: made.folder, from, nowMs, signal });
    await expect(attempt(changed(`PRAGMA user_version = ${steps.length + 1}`))).rejects.toMatchObject({
      code: 'newer',
    });
    await expect(attempt(changed('PRAGMA application_id = 77'))).rejects.toThrow(/another program/);
    await expect(
      attempt(changed("DROP TRIGGER sweep_is_never_changed; UPDATE sweep SET port_name = 'forward input'")),
    ).rejects.toThrow(/1 of its records are not as they were recorded/);
    expect(openTestArchive(made.folder).sweeps.byId(made.later)).toBeDefined();
  });

  it('while a program has the archive open', async () => {
    const made = await backedUp();
    openTestArchive(made.folder);
    await expect(restore(made)).rejects.toMatchObject({ code: 'in-use' });
  });
});
