import type { Command } from 'commander';
import { ArchiveFault } from '../../../backend/archive/archive-fault.ts';
import { backupFolderOf, lastVerified, listBackups } from '../../../backend/archive/backup-list.ts';
import { type Restored, restoreArchive } from '../../../backend/archive/restore.ts';
import { dataFolder } from '../../../backend/data-folder.ts';
import { dataOption } from '../../archive-folder.ts';
import { answered, type Outcome } from '../../outcome.ts';
import { jsonFlag, type RunVerb, type Verb, type VerbIo } from '../../verb.ts';

type Options = Readonly<{ data?: string; from?: string }>;

const textOf = ({ records, sweeps, keptAside }: Restored, from: string): string =>
  [
    `Restored from ${from}: ${records} records with ${sweeps} ${sweeps === 1 ? 'sweep' : 'sweeps'}.`,
    keptAside === null ? 'No archive was there before.' : `What was there is kept as ${keptAside}.`,
    'From here on this archive writes a chain of its own, so that nothing passes for what was recorded before.',
  ].join('\n');

async function act({ data, from }: Options, io: VerbIo): Promise<Outcome> {
  const folder = dataFolder(data);
  const backups = backupFolderOf(folder);
  const source = from ?? lastVerified(listBackups(backups))?.path;
  if (source === undefined)
    return {
      kind: 'failed',
      where: backups,
      help: 'no backup that was found whole is here; name one with --from FILE',
      answer: null,
    };
  try {
    const restored = await restoreArchive({
      folder,
      from: source,
      nowMs: Date.now(),
      signal: io.signal,
    });
    return answered({ from: source, ...restored }, textOf(restored, source));
  } catch (fault) {
    if (fault instanceof ArchiveFault)
      return { kind: 'failed', where: fault.where, help: fault.help, answer: null };
    throw fault;
  }
}

export const restoreAct: Verb = {
  name: 'restore',
  summary: 'puts a backup in the place of the archive',
  register(archive: Command, run: RunVerb) {
    archive
      .command('restore')
      .summary(restoreAct.summary)
      .description(
        'Puts a backup in the place of the archive, after it was copied and looked through. What was there is kept aside under\n' +
          'a name with the day, never deleted. Without --from, the newest backup beside the archive that was found whole.',
      )
      .option('--from <file>', 'the backup')
      .option(...dataOption)
      .option(...jsonFlag)
      .helpOption('-h, --help', 'this help')
      .action((options: Options, self: Command) => run(self, (io) => act(options, io)));
  },
};
