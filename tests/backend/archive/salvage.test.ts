import { mkdirSync, readdirSync, readFileSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { beforeEach, expect, it } from 'vitest';
import { backUp } from '../../../electron/backend/archive/backup.ts';
import { backupFolderOf, factsPath } from '../../../electron/backend/archive/backup-list.ts';
import { steps } from '../../../electron/backend/archive/migrate.ts';
import { ARCHIVE_FILE } from '../../../electron/backend/archive/open.ts';
import { type Salvaged, salvageArchive } from '../../../electron/backend/archive/salvage.ts';
import { verify } from '../../../electron/backend/services/verify.ts';
import { lookInto, openTestArchive, throwAwayFolder } from '../../support/archive.ts';
import { createChance } from '../../support/chance.ts';
import { joined } from '../services/joined.ts';

const signal = new AbortController().signal;
const nowMs = Date.parse('2026-03-03T07:30:00Z');
const PAGE = 4096;
const HALF = 15;

type Whole = Readonly<{
  bytes: Buffer;
  /** Of when half of it was there. */
  backup: readonly (readonly [name: string, bytes: Buffer])[];
  sweepIds: readonly string[];
  records: number;
}>;
let made: Whole | undefined;
const whole = (): Whole => {
  if (made === undefined) throw new Error('the archive is not made');
  return made;
};

// One archive for all tests here, made within the first: its folder goes with that.
beforeEach(async () => {
  if (made !== undefined) return;
  const bench = await joined();
  const sweepIds: string[] = [];
  const record = async () => {
    for (let i = 0; i < HALF; i += 1) {
      const sweepId = await bench.start(60);
      await bench.endOf(sweepId);
      sweepIds.push(sweepId);
    }
  };
  await record();
  const work = { madeAtMs: nowMs, program: '0', signal, told: () => undefined };
  const { path } = await backUp(bench.archive.copies, { folder: backupFolderOf(bench.folder), ...work });
  const backup = [path, factsPath(path)].map(
    (file) => [file.slice(dirname(path).length + 1), readFileSync(file)] as const,
  );
  await record();
  const records = bench.archive.head().seq;
  await bench.close();
  bench.archive.close();
  made = { bytes: readFileSync(join(bench.folder, ARCHIVE_FILE)), backup, sweepIds, records };
});

function damaged(harm: (path: string) => void, withBackup: boolean): string {
  const folder = throwAwayFolder();
  const path = join(folder, ARCHIVE_FILE);
  writeFileSync(path, whole().bytes);
  harm(path);
  if (withBackup) {
    mkdirSync(backupFolderOf(folder));
    for (const [name, bytes] of whole().backup) writeFileSync(join(backupFolderOf(folder), name), bytes);
  }
  return folder;
}
const zeroPages = (pages: readonly number[]) => (path: string) => {
  const bytes = Buffer.from(readFileSync(path));
  for (const page of pages) bytes.fill(0, page * PAGE, (page + 1) * PAGE);
  writeFileSync(path, bytes);
};
const levelsOf = (archive: ReturnType<typeof openTestArchive>, sweepId: string) => {
  const row = archive.sweeps.byId(sweepId);
  return row === undefined ? null : archive.sweeps.readings(row.seq).map(({ meterMdbmv }) => meterMdbmv);
};
/** What was salvaged, or null where nothing could be: then the file is as it was. */
async function salvaged(folder: string): Promise<Salvaged | null> {
  const before = readFileSync(join(folder, ARCHIVE_FILE));
  try {
    const found = await salvageArchive({ folder, nowMs });
    expect(readFileSync(found.keptAside ?? '').equals(before)).toBe(true);
    return found;
  } catch (fault) {
    expect(String(fault)).toContain('nothing can be read out of this file');
    expect(readFileSync(join(folder, ARCHIVE_FILE)).equals(before)).toBe(true);
    expect(readdirSync(folder).filter((name) => /damaged|salvaged|aside/.test(name))).toEqual([]);
    return null;
  }
}

it('takes everything out of a sound archive, proven, and that goes on', async () => {
  const folder = damaged(() => undefined, false);
  expect(await salvageArchive({ folder, nowMs })).toEqual({
    proven: whole().records,
    unproven: 0,
    lost: 0,
    filledFrom: null,
    keptAside: join(folder, 'tiltwright-kept-aside-20260303T073000Z.sqlite'),
  });
  const again = await joined({ folder, newId: () => crypto.randomUUID() });
  for (const sweepId of whole().sweepIds) expect(levelsOf(again.archive, sweepId)).toHaveLength(60);
  await again.endOf(await again.start());
  expect((await verify(again.archive, signal)).broken).toEqual([]);
});

it('with any page zeroed adds up, is sound, verifies, and holds no level that was not recorded', async () => {
  const sound = openTestArchive(damaged(() => undefined, false));
  const levels = new Map(whole().sweepIds.map((sweepId) => [sweepId, levelsOf(sound, sweepId)]));
  const pages = Math.floor(whole().bytes.length / PAGE);
  let saved = 0;
  let lost = 0;
  for (let page = 1; page < pages; page += 5) {
    const folder = damaged(zeroPages([page]), false);
    const found = await salvaged(folder);
    if (found === null) continue;
    saved += 1;
    lost += found.lost;
    expect(found.proven + found.unproven + found.lost, `page ${page}`).toBeGreaterThanOrEqual(
      whole().records,
    );
    const archive = openTestArchive(folder);
    expect(archive.recovered, `page ${page}`).toEqual([]);
    expect((await verify(archive, signal)).broken, `page ${page}`).toEqual([]);
    for (const sweepId of whole().sweepIds) {
      const kept = levelsOf(archive, sweepId);
      if (kept !== null) expect(kept).toEqual(levels.get(sweepId));
    }
    archive.close();
    expect(lookInto(folder, (db) => db.pragma('integrity_check', { simple: true }))).toBe('ok');
  }
  expect(saved).toBeGreaterThan(pages / 10);
  expect(lost).toBeGreaterThan(0);
});

it('is filled up from the last verified backup: nothing of before it is lost', async () => {
  const chance = createChance(11);
  const pages = Math.floor(whole().bytes.length / PAGE);
  let saved = 0;
  for (let time = 0; time < 6; time += 1) {
    const gone = Array.from({ length: 3 }, () => 2 + Math.floor(chance() * (pages - 2)));
    const folder = damaged(zeroPages(gone), true);
    const found = await salvaged(folder);
    if (found === null) continue;
    saved += 1;
    expect(found.filledFrom).toContain('backups');
    const archive = openTestArchive(folder);
    for (const sweepId of whole().sweepIds.slice(0, HALF))
      expect(levelsOf(archive, sweepId), `${gone}`).toHaveLength(60);
    expect((await verify(archive, signal)).broken).toEqual([]);
    archive.close();
  }
  expect(saved).toBeGreaterThan(0);
});

it('reads one that was cut short, as far as it goes', async () => {
  let saved = 0;
  for (const part of [0.95, 0.7, 0.4]) {
    const folder = damaged((path) => truncateSync(path, Math.floor(statSync(path).size * part)), true);
    if ((await salvaged(folder)) === null) continue;
    saved += 1;
    const archive = openTestArchive(folder);
    for (const sweepId of whole().sweepIds.slice(0, HALF))
      expect(levelsOf(archive, sweepId)).toHaveLength(60);
    archive.close();
  }
  expect(saved).toBeGreaterThan(0);
});

it('says of an empty file, of zeros, of a text and of another version that nothing can be read', async () => {
  for (const bytes of [Buffer.alloc(0), Buffer.alloc(20 * PAGE), Buffer.from('a text '.repeat(1000))])
    expect(await salvaged(damaged((path) => writeFileSync(path, bytes), true))).toBeNull();
  const older = damaged(() => undefined, false);
  lookInto(older, (db) => db.pragma(`user_version = ${steps.length - 1}`));
  expect(await salvaged(older)).toBeNull();
  const newer = damaged(() => undefined, false);
  lookInto(newer, (db) => db.pragma(`user_version = ${steps.length + 1}`));
  await expect(salvageArchive({ folder: newer, nowMs })).rejects.toMatchObject({ code: 'newer' });
  await expect(salvageArchive({ folder: throwAwayFolder(), nowMs })).rejects.toThrow(/it is not there/);
});

it('leaves an archive alone that a program has open', async () => {
  const folder = damaged(() => undefined, false);
  openTestArchive(folder);
  await expect(salvageArchive({ folder, nowMs })).rejects.toMatchObject({ code: 'in-use' });
});
