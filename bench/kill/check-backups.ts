import { existsSync } from 'node:fs';
import { dirname } from 'node:path';
import Database from 'better-sqlite3';
import { backupsToKeep } from '../../core/records/backups-to-keep.ts';
import { prove } from '../../electron/backend/archive/backup.ts';
import { type Backup, listBackups } from '../../electron/backend/archive/backup-list.ts';
import { fileSha256 } from '../../electron/backend/archive/on-disk.ts';

const madeAtMs = ({ facts }: Backup): number => Date.parse(facts.madeAt);

async function lossesIn({ path, facts }: Backup): Promise<string[]> {
  if ((await fileSha256(path)) !== facts.sha256)
    return [`the backup ${path} is not the file that was written`];
  const db = new Database(path, { readonly: true });
  try {
    const { verified } = await prove(db, new AbortController().signal);
    const isWhole = verified.broken.length === 0 && verified.records === facts.records;
    return isWhole ? [] : [`the backup ${path} is not whole: ${verified.broken[0]?.words ?? 'records lack'}`];
  } catch (fault) {
    return [`the backup ${path} can't be read: ${String(fault)}`];
  } finally {
    db.close();
  }
}

/** Keeps an eye on folders with backups, over all kills of one archive. */
export function createBackupWatch(folders: readonly string[]) {
  let known: readonly Backup[] = [];
  let toldBefore = 0;
  return {
    count: () => known.length,
    /**
     * Each backup is whole; each that was acknowledged is there unless newer ones made it needless; none that was good goes before.
     * @param told      paths of all that were acknowledged so far, in order
     * @param everyOne  reads the older ones again as well
     */
    async check(told: readonly string[], everyOne = false): Promise<readonly string[]> {
      const present = folders.flatMap((folder) => listBackups(folder));
      const isKnown = (backup: Backup) =>
        known.some(({ path, facts }) => path === backup.path && facts.sha256 === backup.facts.sha256);
      const losses: string[] = [];
      for (const backup of present)
        if (everyOne || !isKnown(backup)) losses.push(...(await lossesIn(backup)));
      const all = [...known, ...present];
      for (const backup of known) {
        const rivals = all.filter(
          ({ path, facts }) => dirname(path) === dirname(backup.path) && facts.device === backup.facts.device,
        );
        const offsetMin = -new Date(madeAtMs(backup)).getTimezoneOffset();
        const stays = backupsToKeep(rivals.map(madeAtMs), offsetMin).includes(madeAtMs(backup));
        if (stays && !present.some(({ path }) => path === backup.path))
          losses.push(`the backup ${backup.path} is gone, and nothing newer made it needless`);
      }
      const newest = told.slice(toldBefore).at(-1);
      if (newest !== undefined && !(existsSync(newest) && present.some(({ path }) => path === newest)))
        losses.push(`the backup ${newest} was told of and is not there`);
      known = present;
      toldBefore = told.length;
      return losses;
    },
  };
}
