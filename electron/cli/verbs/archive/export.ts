import type { Command } from 'commander';
import type { RecordsScope } from '../../../../core/files/records-file.ts';
import { type GivenOut, giveOut } from '../../../backend/services/give-out.ts';
import { refused as refusedInput } from '../../../backend/services/service-parts.ts';
import { dataOption, withArchive } from '../../archive-folder.ts';
import { answered, type Outcome } from '../../outcome.ts';
import { jsonFlag, type RunVerb, type Verb, type VerbIo } from '../../verb.ts';

type Options = Readonly<{ data?: string; out: string; station?: string; from?: string; to?: string }>;

/** The moment at which a day begins where this runs, `later` days on. */
function dayBegins(day: string, later: number): number {
  const [year = 0, month = 0, date = 0] = day.split('-').map(Number);
  const at = new Date(year, month - 1, date + later);
  const isDay = /^\d{4}-\d\d-\d\d$/.test(day) && new Date(year, month - 1, date).getDate() === date;
  if (!isDay || year < 1970) throw refusedInput('bad-period', day, 'no day; write it as 2026-11-25');
  return at.getTime();
}

function scopeOf({ station, from, to }: Options): RecordsScope {
  if ((from === undefined) !== (to === undefined))
    throw refusedInput('bad-period', '--from and --to', 'say both days, or neither');
  const days =
    from === undefined || to === undefined ? null : { fromMs: dayBegins(from, 0), toMs: dayBegins(to, 1) };
  if (station !== undefined)
    return days === null
      ? { kind: 'station', stationId: station }
      : { kind: 'station-period', stationId: station, ...days };
  return days === null ? { kind: 'everything' } : { kind: 'period', ...days };
}

const textOf = ({ path, records, sweeps, bytes, head }: GivenOut): string =>
  [
    `${records} records with ${sweeps} ${sweeps === 1 ? 'sweep' : 'sweeps'} are in ${path} (${bytes} bytes).`,
    `Head of this laptop's chain: ${head.device}, record ${head.seq}, ${head.hash}`,
  ].join('\n');

async function act(options: Options, io: VerbIo): Promise<Outcome> {
  const what = scopeOf(options);
  return await withArchive(options.data, async (archive) => {
    const order = { what, path: options.out, madeAtMs: Date.now() };
    const given = await giveOut(archive, order, io.signal, (records) => io.far(`Wrote ${records} records`));
    const { path, records, sweeps, bytes, head } = given;
    return answered({ path, records, sweeps, bytes, head }, textOf(given));
  });
}

export const exportAct: Verb = {
  name: 'export',
  summary: 'writes records into one file for other laptops',
  register(archive: Command, run: RunVerb) {
    archive
      .command('export')
      .summary(exportAct.summary)
      .description(
        'Writes records into one file that another laptop takes in: everything, one station, a period, or both.\n' +
          'A period means the visits that began in it, both days included. The file has whatever its records name.',
      )
      .requiredOption('--out <file>', 'where it goes; a folder gets a file with a telling name')
      .option('--station <id>', "one station's records")
      .option('--from <day>', 'the first day, as 2026-11-25')
      .option('--to <day>', 'the last day')
      .option(...dataOption)
      .option(...jsonFlag)
      .helpOption('-h, --help', 'this help')
      .action((options: Options, self: Command) => run(self, (io) => act(options, io)));
  },
};
