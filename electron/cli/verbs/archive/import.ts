import { statSync } from 'node:fs';
import type { Command } from 'commander';
import { type FolderFile, takeInFolder } from '../../../backend/services/shared-folder.ts';
import { type TakenIn, takeIn } from '../../../backend/services/take-in.ts';
import { dataOption, withArchive } from '../../archive-folder.ts';
import { answered, type Outcome } from '../../outcome.ts';
import { jsonFlag, type RunVerb, type Verb, type VerbIo } from '../../verb.ts';

type Options = Readonly<{ data?: string; operator?: string }>;

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;
const conflictWords = (conflicts: number): string =>
  conflicts === 0
    ? ''
    : ` ${counted(conflicts, 'record says', 'records say')} otherwise than one of the same name here: both are kept.`;

const fileText = ({ records, added, sweeps, conflicts }: TakenIn): string =>
  added + conflicts === 0
    ? `Nothing new: all ${records} records are here already.`
    : `${counted(added, 'record', 'records')} of ${records} taken in, ${counted(sweeps, 'sweep', 'sweeps')} among them; the others are here already.${conflictWords(conflicts)}`;

function lineOf({ fileName, became, why, added, sweeps, conflicts }: FolderFile): string {
  switch (became) {
    case 'taken-in':
      return `${fileName}: ${counted(added, 'record', 'records')} taken in, ${counted(sweeps, 'sweep', 'sweeps')} among them.${conflictWords(conflicts)}`;
    case 'nothing-new':
      return `${fileName}: nothing new`;
    case 'own':
      return `${fileName}: made by this laptop`;
    case 'before':
    case 'incomplete':
    case 'refused':
      return `${fileName}: ${why ?? became}`;
  }
}

const shareOf = (done: number, total: number): string =>
  `${total === 0 ? 0 : Math.floor((100 * done) / total)} %`;

const isFolder = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;

async function act(path: string, { data, operator = '' }: Options, io: VerbIo): Promise<Outcome> {
  return await withArchive(data, async (archive) => {
    const order = { operator, now: () => new Date() };
    if (!isFolder(path)) {
      const taken = await takeIn(archive, { path, ...order }, io.signal, (done, total) =>
        io.far(`Read ${shareOf(done, total)} of ${path}`),
      );
      const { records, added, known, conflicts, sweeps, sha256, device } = taken;
      return answered({ records, added, known, conflicts, sweeps, sha256, device }, fileText(taken));
    }
    const files = await takeInFolder(archive, path, order, io.signal, (file, place, count, done, total) =>
      io.far(`Read ${shareOf(done, total)} of ${file}, file ${place} of ${count}`),
    );
    const text = files.length === 0 ? `No file of records is in ${path}.` : files.map(lineOf).join('\n');
    const odd = files.some(({ became }) => became === 'refused');
    return answered({ files }, text, odd ? 'fail' : 'pass');
  });
}

export const importAct: Verb = {
  name: 'import',
  summary: "takes in other laptops' records",
  register(archive: Command, run: RunVerb) {
    archive
      .command('import')
      .summary(importAct.summary)
      .description(
        'Takes in a file that `archive export` made, or every such file of a folder. Each is taken in whole or not at all;\n' +
          'taken in twice it changes nothing. Records that say otherwise than those here are kept beside them.\n' +
          'Exit 1 when a file of the folder was refused.',
      )
      .argument('<file or folder>', 'the file, or a folder that laptops drop theirs into')
      .option('--operator <name>', 'who takes it in; kept with it')
      .option(...dataOption)
      .option(...jsonFlag)
      .helpOption('-h, --help', 'this help')
      .action((path: string, options: Options, self: Command) => run(self, (io) => act(path, options, io)));
  },
};
