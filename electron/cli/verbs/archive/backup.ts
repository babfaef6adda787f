import type { Command } from 'commander';
import packageJson from '../../../../package.json' with { type: 'json' };
import { type Backup, backupFolderOf } from '../../../backend/archive/backup-list.ts';
import { dataFolder } from '../../../backend/data-folder.ts';
import { makeBackup } from '../../../backend/services/backups.ts';
import { dataOption, withArchive } from '../../archive-folder.ts';
import { answered, type Outcome } from '../../outcome.ts';
import { jsonFlag, type RunVerb, type Verb, type VerbIo } from '../../verb.ts';

type Options = Readonly<{ data?: string; to?: string }>;

function textOf({ path, facts }: Backup, gone: readonly string[]): string {
  const { records, sweeps, broken, bytes, device, seq, hash } = facts;
  return [
    `${path}: ${records} records with ${sweeps} ${sweeps === 1 ? 'sweep' : 'sweeps'}, ${bytes} bytes, looked through after it was written.`,
    broken === 0
      ? 'Each record is as it was recorded.'
      : `${broken} records are not as they were recorded; "archive verify" names them. No older backup was let go.`,
    ...(gone.length === 0
      ? []
      : [`${gone.length} older ones of the same days, weeks or months were let go.`]),
    `Head of this laptop's chain: ${device}, record ${seq}, ${hash}`,
  ].join('\n');
}

async function act({ data, to }: Options, io: VerbIo): Promise<Outcome> {
  const folder = dataFolder(data);
  return await withArchive(data, async (archive) => {
    const now = new Date();
    const { made, gone } = await makeBackup(archive, {
      folder: to ?? backupFolderOf(folder),
      now,
      program: packageJson.version,
      signal: io.signal,
      told: (what, done, total) =>
        io.far(
          what === 'copying' ? `Copied ${done} of ${total} pages` : `Looked at ${done} of ${total} records`,
        ),
    });
    const { path, facts } = made;
    const { records, sweeps, broken, bytes, sha256, device, seq, hash } = facts;
    return answered(
      { path, records, sweeps, broken, bytes, sha256, head: { device, seq, hash }, letGo: gone },
      textOf(made, gone),
      broken === 0 ? 'pass' : 'fail',
    );
  });
}

export const backupAct: Verb = {
  name: 'backup',
  summary: 'copies the archive and looks the copy through',
  register(archive: Command, run: RunVerb) {
    archive
      .command('backup')
      .summary(backupAct.summary)
      .description(
        'Copies the archive into one file, looks the copy through (SQLite, every record against its chain), and only then\n' +
          'lets older ones go: the newest of each of 7 days and 5 weeks and the first of each of 12 months stay.\n' +
          'Exit 1 when a record in it is not as it was recorded.',
      )
      .option('--to <folder>', 'where it goes, a stick for example; without it, "backups" beside the archive')
      .option(...dataOption)
      .option(...jsonFlag)
      .helpOption('-h, --help', 'this help')
      .action((options: Options, self: Command) => run(self, (io) => act(options, io)));
  },
};
