import type { Command } from 'commander';
import type { Verified } from '../../../backend/archive/verify.ts';
import { verify } from '../../../backend/services/verify.ts';
import { dataOption, withArchive } from '../../archive-folder.ts';
import { answered, type Outcome } from '../../outcome.ts';
import { jsonFlag, type RunVerb, type Verb, type VerbIo } from '../../verb.ts';

type Options = Readonly<{ data?: string }>;

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

function textOf({ records, sweeps, broken, head }: Verified): string {
  const looked = `${counted(records, 'record', 'records')}, ${counted(sweeps, 'sweep', 'sweeps')} among them`;
  const lines =
    broken.length === 0
      ? [`${looked}: each is as it was recorded.`]
      : [
          `${looked}: ${counted(broken.length, 'break', 'breaks')}, the first:`,
          ...broken.slice(0, 20).map(({ words }) => `  ${words}`),
          ...(broken.length > 20 ? [`  and ${broken.length - 20} more; see --json`] : []),
        ];
  return [
    ...lines,
    head.seq === 0
      ? 'This laptop has recorded nothing yet.'
      : `Head of this laptop's chain: ${head.device}, record ${head.seq}, ${head.hash}`,
    'This shows what was changed, not that nothing could be: hold the head against one that was kept elsewhere.',
  ].join('\n');
}

async function act({ data }: Options, io: VerbIo): Promise<Outcome> {
  return await withArchive(data, async (archive) => {
    const { links } = archive.copies.extent();
    const found = await verify(archive, io.signal, (records) =>
      io.far(`Looked at ${records} of ${links} records`),
    );
    const { records, sweeps, broken, head } = found;
    return answered({ sweeps, broken, records, head }, textOf(found), broken.length === 0 ? 'pass' : 'fail');
  });
}

export const verifyAct: Verb = {
  name: 'verify',
  summary: 'holds every record against its chain of hashes',
  register(archive: Command, run: RunVerb) {
    archive
      .command('verify')
      .summary(verifyAct.summary)
      .description(
        'Makes every record anew from the archive and holds it against its chain of hashes.\n' +
          'Names the first break: a record that was changed, removed, exchanged or put in. Exit 1 when there is one.',
      )
      .option(...dataOption)
      .option(...jsonFlag)
      .helpOption('-h, --help', 'this help')
      .action((options: Options, self: Command) => run(self, (io) => act(options, io)));
  },
};
