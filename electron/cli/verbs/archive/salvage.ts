import type { Command } from 'commander';
import { ArchiveFault } from '../../../backend/archive/archive-fault.ts';
import { type Salvaged, salvageArchive } from '../../../backend/archive/salvage.ts';
import { dataFolder } from '../../../backend/data-folder.ts';
import { dataOption } from '../../archive-folder.ts';
import { answered, type Outcome } from '../../outcome.ts';
import { jsonFlag, type RunVerb, type Verb } from '../../verb.ts';

type Options = Readonly<{ data?: string }>;

const textOf = ({ proven, unproven, lost, filledFrom, keptAside }: Salvaged): string =>
  [
    `Saved ${proven + unproven} records, ${lost} lost.`,
    `${proven} are shown by their hashes to be as they were recorded; ${unproven} can be read, but nothing shows that.`,
    filledFrom === null
      ? 'No verified backup was there to fill the holes from.'
      : `Holes were filled from ${filledFrom}.`,
    keptAside === null ? 'No file was there before.' : `The damaged file is kept as ${keptAside}.`,
    'From here on this archive writes a chain of its own.',
  ].join('\n');

async function act({ data }: Options): Promise<Outcome> {
  const folder = dataFolder(data);
  try {
    const salvaged = await salvageArchive({ folder, nowMs: Date.now() });
    return answered(salvaged, textOf(salvaged));
  } catch (fault) {
    if (fault instanceof ArchiveFault)
      return { kind: 'failed', where: fault.where, help: fault.help, answer: null };
    throw fault;
  }
}

export const salvageAct: Verb = {
  name: 'salvage',
  summary: 'takes what can be read out of a damaged archive',
  register(archive: Command, run: RunVerb) {
    archive
      .command('salvage')
      .summary(salvageAct.summary)
      .description(
        'Takes every record that can be read out of a damaged archive, fills the holes from the newest verified backup beside\n' +
          'it, and says how much was saved and lost. The damaged file is kept aside under a name with the day, never deleted.',
      )
      .option(...dataOption)
      .option(...jsonFlag)
      .helpOption('-h, --help', 'this help')
      .action((options: Options, self: Command) => run(self, () => act(options)));
  },
};
