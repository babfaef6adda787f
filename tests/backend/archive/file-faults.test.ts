import { createHash } from 'node:crypto';
import {
  chmodSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { basename, join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { ArchiveFault } from '../../../electron/backend/archive/archive-fault.ts';
import { backUp } from '../../../electron/backend/archive/backup.ts';
import { backupFolderOf, factsPath } from '../../../electron/backend/archive/backup-list.ts';
import { MARKER_FILE } from '../../../electron/backend/archive/marker.ts';
import { steps } from '../../../electron/backend/archive/migrate.ts';
import { ARCHIVE_FILE } from '../../../electron/backend/archive/open.ts';
import { restoreArchive } from '../../../electron/backend/archive/restore.ts';
import { RUNNING_FILE } from '../../../electron/backend/archive/running-mark.ts';
import { salvageArchive } from '../../../electron/backend/archive/salvage.ts';
import { lookInto, openTestArchive, throwAwayFolder } from '../../support/archive.ts';
import { asNobody } from '../../support/nobody.ts';

const LOG_FILE = `${ARCHIVE_FILE}-wal`;
const PAGE = 4096;
const nowMs = Date.parse('2026-03-03T07:30:00Z');
const signal = new AbortController().signal;

type Files = Readonly<{ closed: Buffer; killed: Buffer; log: Buffer; backup: ReadonlyMap<string, Buffer> }>;
let made: Files | undefined;
const files = (): Files => {
  if (made === undefined) throw new Error('nothing is made');
  return made;
};

const addStations = (archive: ReturnType<typeof openTestArchive>, from: number, to: number): void =>
  archive.write(() => {
    for (let i = from; i < to; i += 1) {
      archive.stations.add(`s${i}`, i);
      archive.stations.addRevision({
        ...{ stationId: `s${i}`, revision: 1, name: 'n', fileName: 'f', addedAtMs: 0 },
        design: `{"a":"${'x'.repeat(200)}"}`,
      });
    }
  });

// One archive for all: as it is after it was closed, and as a killed program leaves it, with its log beside it.
beforeEach(async () => {
  if (made !== undefined) return;
  const folder = throwAwayFolder();
  const path = join(folder, ARCHIVE_FILE);
  const archive = openTestArchive(folder);
  addStations(archive, 0, 150);
  const work = { madeAtMs: nowMs, program: '0', signal, told: () => undefined };
  const backup = await backUp(archive.copies, { folder: backupFolderOf(folder), ...work });
  archive.copies.checkpoint();
  addStations(archive, 150, 200);
  const [killed, log] = [readFileSync(path), readFileSync(join(folder, LOG_FILE))];
  archive.close();
  const kept = [backup.path, factsPath(backup.path)].map(
    (file) => [basename(file), readFileSync(file)] as const,
  );
  made = { closed: readFileSync(path), killed, log, backup: new Map(kept) };
});

/** A folder with that archive, marked as one; harmed by the test. */
function folderWith(parts: Readonly<{ archive: Buffer; log?: Buffer }>, withBackup = false): string {
  const folder = throwAwayFolder();
  writeFileSync(join(folder, ARCHIVE_FILE), parts.archive);
  writeFileSync(join(folder, MARKER_FILE), '');
  if (parts.log !== undefined) writeFileSync(join(folder, LOG_FILE), parts.log);
  if (withBackup) {
    mkdirSync(backupFolderOf(folder));
    for (const [name, bytes] of files().backup) writeFileSync(join(backupFolderOf(folder), name), bytes);
  }
  return folder;
}

function faultOf(folder: string): ArchiveFault {
  try {
    openTestArchive(folder);
  } catch (fault) {
    if (fault instanceof ArchiveFault) return fault;
    throw fault;
  }
  throw new Error('it was opened');
}
/** What opening says; the file and its log keep every byte. */
function refusalOf(folder: string): ArchiveFault {
  const bytesOf = (name: string) =>
    existsSync(join(folder, name))
      ? createHash('sha256')
          .update(readFileSync(join(folder, name)))
          .digest('hex')
      : null;
  const before = [ARCHIVE_FILE, LOG_FILE].map(bytesOf);
  const fault = faultOf(folder);
  expect([ARCHIVE_FILE, LOG_FILE].map(bytesOf)).toEqual(before);
  expect(fault.message).not.toContain('\n');
  return fault;
}
const stationsIn = (folder: string): number => {
  const archive = openTestArchive(folder);
  const count = archive.stations.list().length;
  archive.close();
  return count;
};
const commandFor = (verb: string, folder: string) =>
  `\`npm run -s tiltwright -- archive ${verb} --data "${folder}"\``;

const cut = (bytes: number) => (archive: Buffer) => archive.subarray(0, bytes);
const zeroed = (from: number, to: number) => (archive: Buffer) =>
  Buffer.concat([
    archive.subarray(0, from * PAGE),
    Buffer.alloc((to - from) * PAGE),
    archive.subarray(to * PAGE),
  ]);

describe('each harm to the file is told in one line, with the newest backup and the commands for this very folder', () => {
  it.each([
    ['empty', cut(0), 'emptied'],
    ['cut after one byte', cut(1), 'not-a-database'],
    ['cut within its header', cut(60), 'not-a-database'],
    ['cut after its header', cut(100), 'damaged'],
    ['cut within its first page', cut(2000), 'damaged'],
    ['cut after its first page', cut(PAGE), 'damaged'],
    ['cut within a later page', cut(20 * PAGE + 77), 'damaged'],
    ['nothing but zeros', (archive: Buffer) => Buffer.alloc(archive.length), 'not-a-database'],
    ['with its first page zeroed', zeroed(0, 1), 'not-a-database'],
    ['with a page zeroed', zeroed(9, 10), 'damaged'],
  ] as const)('%s', async (_, harm, code) => {
    const folder = folderWith({ archive: harm(files().closed) }, true);
    const refusal = refusalOf(folder);
    expect(refusal).toMatchObject({ code, where: join(folder, ARCHIVE_FILE) });
    expect(refusal.help).toContain('put back the backup of 2026-03-03 07:30 UTC');
    expect(refusal.help).toContain(commandFor('restore', folder));
    expect(refusal.help.includes(commandFor('salvage', folder))).toBe(code === 'damaged');
    // The way on that was told leads on.
    const [from = ''] = files().backup.keys();
    const restored = { folder, from: join(backupFolderOf(folder), from), nowMs, signal };
    expect((await restoreArchive(restored)).keptAside).not.toBeNull();
    expect(stationsIn(folder)).toBe(150);
  });

  it('a page zeroed: what can be read is salvaged, and what was not in the backup with it', async () => {
    const folder = folderWith({ archive: zeroed(9, 10)(files().closed) }, true);
    expect(refusalOf(folder).code).toBe('damaged');
    expect(await salvageArchive({ folder, nowMs })).toMatchObject({ filledFrom: expect.any(String) });
    expect(stationsIn(folder)).toBeGreaterThan(150);
  });

  it('without a backup beside it, the command asks for one of another drive', () => {
    const folder = folderWith({ archive: zeroed(9, 10)(files().closed) });
    expect(refusalOf(folder).help).toContain(commandFor('restore --from FILE', folder));
  });

  it('an archive of a newer program asks for that program', () => {
    const folder = folderWith({ archive: files().closed });
    lookInto(folder, (db) => db.pragma(`user_version = ${steps.length + 1}`));
    expect(refusalOf(folder)).toMatchObject({
      code: 'newer',
      help: expect.stringContaining('Nothing was changed'),
    });
  });
});

describe('the log beside the archive', () => {
  it('its own is read in', () => {
    const { killed, log } = files();
    expect(stationsIn(folderWith({ archive: killed, log }))).toBe(200);
  });

  it('one of another file is told; moved away, the archive opens, and nothing of either was changed before', () => {
    const other = throwAwayFolder();
    const archive = openTestArchive(other);
    addStations(archive, 500, 900);
    const foreign = readFileSync(join(other, LOG_FILE));
    const folder = folderWith({ archive: files().closed, log: foreign }, true);
    const refusal = refusalOf(folder);
    expect(refusal).toMatchObject({ code: 'foreign-log', where: join(folder, LOG_FILE) });
    expect(refusal.help).toContain(
      `move ${LOG_FILE} into another folder and start again. Nothing was changed`,
    );
    rmSync(join(folder, LOG_FILE));
    expect(stationsIn(folder)).toBe(200);
  });

  it('gone after a kill, it is missed before anything is recorded without it; both ways on lead on', () => {
    const { killed, log } = files();
    const folder = folderWith({ archive: killed });
    writeFileSync(join(folder, RUNNING_FILE), '');
    const refusal = refusalOf(folder);
    expect(refusal).toMatchObject({ code: 'log-missing', where: join(folder, ARCHIVE_FILE) });
    expect(refusal.help).toMatch(
      /^the last program was killed, and its log .*, tiltwright\.sqlite-wal, is not beside this file any more; put it back .*, or delete tiltwright\.running to go on/,
    );
    const without = throwAwayFolder();
    copyFileSync(join(folder, ARCHIVE_FILE), join(without, ARCHIVE_FILE));
    expect(stationsIn(without)).toBe(150);
    writeFileSync(join(folder, LOG_FILE), log);
    expect(stationsIn(folder)).toBe(200);
  });

  it('is missed after no orderly end, and after no restore', async () => {
    const folder = folderWith({ archive: files().closed }, true);
    const archive = openTestArchive(folder);
    expect(existsSync(join(folder, RUNNING_FILE))).toBe(true);
    archive.close();
    expect([RUNNING_FILE, LOG_FILE].map((name) => existsSync(join(folder, name)))).toEqual([false, false]);
    writeFileSync(join(folder, RUNNING_FILE), '');
    const [from = ''] = files().backup.keys();
    await restoreArchive({ folder, from: join(backupFolderOf(folder), from), nowMs, signal });
    expect(stationsIn(folder)).toBe(150);
  });

  it('cut anywhere, it gives what was whole in it', () => {
    const { killed, log } = files();
    for (let bytes = 0; bytes <= log.length; bytes += Math.ceil(log.length / 7)) {
      const folder = folderWith({ archive: killed, log });
      truncateSync(join(folder, LOG_FILE), bytes);
      expect([150, 200]).toContain(stationsIn(folder));
    }
  });
});

// Windows keeps rights elsewhere; there the same faults come from SQLite.
it.skipIf(process.platform === 'win32')(
  'a file that this account may not read or not write is told as such',
  () => {
    const folder = folderWith({ archive: files().closed });
    chmodSync(folder, 0o777);
    const refusedTo = (mode: number) => {
      chmodSync(join(folder, ARCHIVE_FILE), mode);
      return asNobody(() => faultOf(folder));
    };
    for (const mode of [0o000, 0o222, 0o444])
      expect(refusedTo(mode)).toMatchObject({
        code: 'read-only',
        where: join(folder, ARCHIVE_FILE),
        help: expect.stringMatching(
          /^nothing can be written there; give this account the right to read and write, or start with --data/,
        ),
      });
    chmodSync(join(folder, ARCHIVE_FILE), 0o644);
    for (const name of ['tiltwright.lock', LOG_FILE, `${ARCHIVE_FILE}-shm`])
      rmSync(join(folder, name), { force: true });
    expect(stationsIn(folder)).toBe(200);
  },
);
