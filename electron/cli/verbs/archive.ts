import type { Command } from 'commander';
import type { RunVerb, Verb } from '../verb.ts';
import { backupAct } from './archive/backup.ts';
import { exportAct } from './archive/export.ts';
import { importAct } from './archive/import.ts';
import { restoreAct } from './archive/restore.ts';
import { salvageAct } from './archive/salvage.ts';
import { verifyAct } from './archive/verify.ts';

/** What can be done with an archive, one file each. */
const acts: readonly Verb[] = [verifyAct, backupAct, restoreAct, salvageAct, exportAct, importAct];

export const archive: Verb = {
  name: 'archive',
  summary: 'looks after the archive of records',
  register(program: Command, run: RunVerb) {
    const command = program
      .command('archive')
      .summary(archive.summary)
      .description('Looks after the archive: the folder in which the workbench keeps every record.')
      .usage(`${acts.map(({ name }) => name).join('|')} ... [--json]`);
    for (const act of acts) act.register(command, run);
  },
};
