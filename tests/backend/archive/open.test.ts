import { createHash } from 'node:crypto';
import { copyFileSync, existsSync, readFileSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { ArchiveFault } from '../../../electron/backend/archive/archive-fault.ts';
import { MARKER_FILE } from '../../../electron/backend/archive/marker.ts';
import { steps } from '../../../electron/backend/archive/migrate.ts';
import { ARCHIVE_FILE } from '../../../electron/backend/archive/open.ts';
import { lookInto, openTestArchive, throwAwayFolder } from '../../support/archive.ts';
import { connection } from '../../support/archive-connection.ts';

// The archive keeps its connection to itself; the pragmas are those of that connection, so they are asked of it.
vi.mock('better-sqlite3', async (original) =>
  (await import('../../support/watched-sqlite.ts')).watched(await original()),
);

const hashOf = (path: string) => createHash('sha256').update(readFileSync(path)).digest('hex');

/** What opening says, with the proof that the file wasn't touched. */
function refusalOf(folder: string): ArchiveFault {
  const path = join(folder, ARCHIVE_FILE);
  const before = hashOf(path);
  try {
    openTestArchive(folder);
  } catch (fault) {
    if (!(fault instanceof ArchiveFault)) throw fault;
    expect(hashOf(path)).toBe(before);
    return fault;
  }
  throw new Error('it was opened');
}

/** An archive with enough rows to have pages beyond the first. */
function filledArchive(): string {
  const folder = throwAwayFolder();
  const archive = openTestArchive(folder);
  archive.write(() => {
    for (let i = 0; i < 200; i += 1) {
      archive.stations.add(`s${i}`, i);
      archive.stations.addRevision({
        stationId: `s${i}`,
        revision: 1,
        name: 'n',
        design: `{"a":"${'x'.repeat(200)}"}`,
        fileName: 'f',
        addedAtMs: 0,
      });
    }
  });
  archive.close();
  return folder;
}

describe('every opening', () => {
  it('commits to the disk: synchronous is FULL at the first opening and at every later one', () => {
    const folder = throwAwayFolder();
    for (let time = 0; time < 3; time += 1) {
      const archive = openTestArchive(folder);
      const db = connection(folder);
      const pragma = (name: string) => db.pragma(name, { simple: true });
      expect(
        [
          'synchronous',
          'journal_mode',
          'fullfsync',
          'checkpoint_fullfsync',
          'foreign_keys',
          'recursive_triggers',
        ].map(pragma),
      ).toEqual([2, 'wal', 1, 1, 1, 1]);
      archive.close();
    }
    // Left to itself, a reopened WAL database of this build is only NORMAL: the very thing that is guarded against.
    expect(lookInto(folder, (db) => db.pragma('synchronous', { simple: true }))).toBe(1);
  });

  it('makes the file, the marker, and one set of tables', () => {
    const folder = join(throwAwayFolder(), 'not', 'there', 'yet');
    openTestArchive(folder).close();
    openTestArchive(folder).close();
    expect(existsSync(join(folder, MARKER_FILE))).toBe(true);
    expect(lookInto(folder, (db) => db.pragma('user_version', { simple: true }))).toBe(steps.length);
  });

  it('leaves no row of a run that recorded nothing', () => {
    const folder = throwAwayFolder();
    openTestArchive(folder).close();
    expect(lookInto(folder, (db) => db.prepare('SELECT count(*) FROM session').pluck().get())).toBe(0);
  });

  it('names the run once, also when its first records were rolled back', () => {
    const folder = throwAwayFolder();
    const archive = openTestArchive(folder);
    const addTwice = () =>
      archive.write(() => {
        archive.stations.add('a', 1);
        archive.stations.add('a', 1);
      });
    expect(addTwice).toThrow(/UNIQUE/);
    archive.write(() => archive.stations.add('a', 1));
    expect(addTwice).toThrow(/UNIQUE/);
    archive.write(() => archive.stations.add('b', 1));
    archive.close();
    lookInto(folder, (db) => {
      expect(db.prepare('SELECT count(*) FROM session').pluck().get()).toBe(1);
      expect(db.prepare('SELECT station_id FROM station ORDER BY seq').pluck().all()).toEqual(['a', 'b']);
    });
  });
});

describe('a file that can not be trusted is refused and keeps every byte', () => {
  it('a text', () => {
    const folder = throwAwayFolder();
    writeFileSync(join(folder, ARCHIVE_FILE), 'frequency_mhz,level_dbmv\n'.repeat(100));
    expect(refusalOf(folder)).toMatchObject({ code: 'not-a-database', where: join(folder, ARCHIVE_FILE) });
  });

  it('a few bytes, or nothing but zeros', () => {
    for (const bytes of [Buffer.from('SQLite format 3\0'), Buffer.alloc(8192)]) {
      const folder = throwAwayFolder();
      writeFileSync(join(folder, ARCHIVE_FILE), bytes);
      expect(refusalOf(folder).code).toBe('not-a-database');
    }
  });

  it('the database of another program, with and without a mark of its own', () => {
    for (const applicationId of [0, 77]) {
      const folder = throwAwayFolder();
      lookInto(folder, (db) => db.exec(`CREATE TABLE theirs (x); PRAGMA application_id = ${applicationId};`));
      expect(refusalOf(folder).code).toBe('not-ours');
    }
  });

  it('an archive of a newer program', () => {
    const folder = filledArchive();
    lookInto(folder, (db) => db.pragma(`user_version = ${steps.length + 3}`));
    expect(refusalOf(folder)).toMatchObject({
      code: 'newer',
      help: expect.stringContaining('Nothing was changed'),
    });
  });

  it('one cut short, at many places', () => {
    const whole = filledArchive();
    const { size } = statSync(join(whole, ARCHIVE_FILE));
    expect(size).toBeGreaterThan(60_000);
    for (let bytes = 4096; bytes < size - 4096; bytes += 8192 - 512) {
      const folder = throwAwayFolder();
      copyFileSync(join(whole, ARCHIVE_FILE), join(folder, ARCHIVE_FILE));
      copyFileSync(join(whole, MARKER_FILE), join(folder, MARKER_FILE));
      truncateSync(join(folder, ARCHIVE_FILE), bytes);
      expect(refusalOf(folder).code).toBe('damaged');
    }
  });

  it('one with pages overwritten by zeros', () => {
    const folder = filledArchive();
    const path = join(folder, ARCHIVE_FILE);
    const bytes = readFileSync(path);
    bytes.fill(0, 5 * 4096, 40 * 4096);
    writeFileSync(path, bytes);
    expect(refusalOf(folder).code).toBe('damaged');
  });

  it('one that is empty or gone, although an archive was made here', () => {
    const folder = filledArchive();
    writeFileSync(join(folder, ARCHIVE_FILE), '');
    expect(refusalOf(folder)).toMatchObject({ code: 'emptied', help: expect.stringContaining(MARKER_FILE) });
    const bare = throwAwayFolder();
    copyFileSync(join(folder, MARKER_FILE), join(bare, MARKER_FILE));
    expect(() => openTestArchive(bare)).toThrow(/is gone/);
  });

  it('but an empty one where none was made is a new one', () => {
    const folder = throwAwayFolder();
    writeFileSync(join(folder, ARCHIVE_FILE), '');
    expect(openTestArchive(folder).stations.list()).toEqual([]);
  });
});

it('opens again after each refusal: the folder is not left locked', () => {
  const folder = throwAwayFolder();
  const path = join(folder, ARCHIVE_FILE);
  writeFileSync(path, 'not an archive');
  refusalOf(folder);
  writeFileSync(path, '');
  expect(openTestArchive(folder).stations.list()).toEqual([]);
});
