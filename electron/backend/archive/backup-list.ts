import { existsSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { backupsToKeep } from '../../../core/records/backups-to-keep.ts';
import { writeForGood } from './on-disk.ts';

/** Where an archive's own backups are, beside it. */
export const BACKUP_FOLDER = 'backups';
export const backupFolderOf = (dataDir: string): string => join(dataDir, BACKUP_FOLDER);

/** What stands in the small file beside each backup: what was found when it was looked through. */
const Facts = z.strictObject({
  format: z.literal('tiltwright-backup/1'),
  madeAt: z.iso.datetime(),
  program: z.string(),
  device: z.string(),
  /** The head of the chain at that moment. */
  seq: z.number().int().min(0),
  hash: z.string().regex(/^[0-9a-f]{64}$/),
  records: z.number().int().min(0),
  sweeps: z.number().int().min(0),
  /** Records that were not as they were recorded; a backup with one of them counts as none. */
  broken: z.number().int().min(0),
  bytes: z.number().int().min(1),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
});
export type BackupFacts = z.infer<typeof Facts>;
export type Backup = Readonly<{ path: string; facts: BackupFacts }>;

const NAME = /^tiltwright-\d{8}T\d{6}Z\.sqlite$/;

export const backupName = (madeAtMs: number): string =>
  `tiltwright-${new Date(madeAtMs).toISOString().slice(0, 19).replace(/[-:]/g, '')}Z.sqlite`;
/** Two in one second are two files: a backup never takes the place of another. */
export function freeBackupName(folder: string, madeAtMs: number): string {
  let atMs = madeAtMs;
  while (existsSync(join(folder, backupName(atMs)))) atMs += 1000;
  return backupName(atMs);
}
export const factsPath = (path: string): string => path.replace(/\.sqlite$/, '.json');

export const writeFacts = (path: string, facts: BackupFacts): Promise<void> =>
  writeForGood(factsPath(path), `${JSON.stringify(facts, null, 2)}\n`);

/** What is known of a backup; null where nothing is, or the file is not as long as it was. */
export function readFacts(path: string): BackupFacts | null {
  try {
    const read = Facts.safeParse(JSON.parse(readFileSync(factsPath(path), 'utf8')));
    return read.success && statSync(path).size === read.data.bytes ? read.data : null;
  } catch {
    return null;
  }
}

/** The backups of a folder that were looked through, newest first. A folder that can't be read has none. */
export function listBackups(folder: string): readonly Backup[] {
  let names: readonly string[];
  try {
    names = readdirSync(folder);
  } catch {
    return [];
  }
  return names
    .filter((name) => NAME.test(name))
    .flatMap((name) => {
      const path = join(folder, name);
      const facts = readFacts(path);
      return facts === null ? [] : [{ path, facts }];
    })
    .toSorted((a, b) => Date.parse(b.facts.madeAt) - Date.parse(a.facts.madeAt));
}

/** The newest backup that was whole, or undefined. */
export const lastVerified = (backups: readonly Backup[]): Backup | undefined =>
  backups.find(({ facts }) => facts.broken === 0);

/**
 * Lets older backups of the same device go, once a newer one was found whole. Those of another archive, and those with
 * broken records, are never touched: they may be all that is left of something.
 * @returns  the paths that are gone
 */
export function rotate(folder: string, made: Backup, utcOffsetMin: number): readonly string[] {
  if (made.facts.broken > 0) return [];
  const same = listBackups(folder).filter(
    ({ facts }) => facts.broken === 0 && facts.device === made.facts.device,
  );
  const keep = new Set(
    backupsToKeep(
      same.map(({ facts }) => Date.parse(facts.madeAt)),
      utcOffsetMin,
    ),
  );
  const gone = same.filter(({ facts, path }) => path !== made.path && !keep.has(Date.parse(facts.madeAt)));
  for (const { path } of gone) {
    rmSync(path, { force: true });
    rmSync(factsPath(path), { force: true });
  }
  return gone.map(({ path }) => path);
}

/**
 * What a program that was ended in the middle of a backup left behind: half a copy, facts whose copy had not its name
 * yet, or facts of one that was let go.
 */
export function removeLeft(folder: string): void {
  if (!existsSync(folder)) return;
  const names = readdirSync(folder);
  for (const name of names) {
    const isPart = /^tiltwright-\d{8}T\d{6}Z\.(sqlite|json)\.partial(-journal|-wal|-shm)?$/.test(name);
    const isAlone =
      /^tiltwright-\d{8}T\d{6}Z\.json$/.test(name) && !names.includes(name.replace(/json$/, 'sqlite'));
    if (isPart || isAlone) rmSync(join(folder, name), { force: true });
  }
}
