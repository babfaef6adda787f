import type { Command } from 'commander';
import type { Verified } from '../../../backend/archive/verify.ts';
import { type FromBytes, sweepsFromBytes } from '../../../backend/services/sweeps-from-bytes.ts';
import { verify } from '../../../backend/services/verify.ts';
import { dataOption, withArchive } from '../../archive-folder.ts';
import { answered, type Outcome } from '../../outcome.ts';
import { jsonFlag, type RunVerb, type Verb, type VerbIo } from '../../verb.ts';

type Options = Readonly<{ data?: string; bytes?: true }>;

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

function bytesText({ same, without, different }: FromBytes): string {
  const read = counted(same + different.length, 'sweep', 'sweeps');
  const lines =
    different.length === 0
      ? [`${read} read again from the bytes of the wire: each says the same levels.`]
      : [
          `${read} read again from the bytes of the wire: ${different.length} not as recorded.`,
          ...different.slice(0, 20).map(({ sweepId, words }) => `  ${sweepId}: ${words}`),
          ...(different.length > 20 ? [`  and ${different.length - 20} more; see --json`] : []),
        ];
  return [...lines, ...(without === 0 ? [] : [`${without} more of a meter, kept without bytes.`])].join('\n');
}

async function act({ data, bytes }: Options, io: VerbIo): Promise<Outcome> {
  return await withArchive(data, async (archive) => {
    const { links } = archive.copies.extent();
    const found = await verify(archive, io.signal, (records) =>
      io.far(`Looked at ${records} of ${links} records`),
    );
    const { records, sweeps, broken, head } = found;
    const again =
      bytes === undefined
        ? null
        : await sweepsFromBytes(archive, io.signal, (count) =>
            io.far(`Read ${counted(count, 'sweep', 'sweeps')} again from the bytes`),
          );
    const isWell = broken.length === 0 && (again?.different.length ?? 0) === 0;
    return answered(
      { sweeps, broken, records, head, ...(again === null ? {} : { bytes: again }) },
      [textOf(found), ...(again === null ? [] : [bytesText(again)])].join('\n'),
      isWell ? 'pass' : 'fail',
    );
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
      .option('--bytes', 'also reads every sweep of a meter again from the bytes that are kept with it')
      .option(...dataOption)
      .option(...jsonFlag)
      .helpOption('-h, --help', 'this help')
      .action((options: Options, self: Command) => run(self, (io) => act(options, io)));
  },
};
