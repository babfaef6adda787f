import { type Command, InvalidArgumentError } from 'commander';
import { Refused } from '../../../core/bridge/refused.ts';
import type { ReportForm, ReportOf } from '../../../core/bridge/report-calls.ts';
import type { Paper } from '../../../core/report/document.ts';
import { refuse } from '../../../core/result.ts';
import { usualPaper } from '../../../core/words/usual-paper.ts';
import packed from '../../../package.json' with { type: 'json' };
import { numberOption } from '../number-option.ts';
import { answered, type Outcome } from '../outcome.ts';
import { jsonFlag, type RunVerb, type Verb, type VerbIo } from '../verb.ts';
import { writeOutput } from '../write-output.ts';

type Options = Readonly<{ out: string; data?: string; paper?: Paper; history?: boolean; label?: number }>;
type Archive = Readonly<{
  visits: Readonly<{
    byId(visitId: string): { visitId: string; stationId: string } | undefined;
    ofStation(stationId: string): readonly { visitId: string }[];
  }>;
  stations: Readonly<{
    list(): readonly { stationId: string }[];
    newestDesign(stationId: string): { name: string } | undefined;
  }>;
}>;

const refusal = (code: string, where: string, help: string) => new Refused(refuse(code, where, help));

function formOf(out: string): ReportForm {
  const form = /\.(pdf|html)$/i.exec(out)?.[1]?.toLowerCase();
  if (form === 'pdf' || form === 'html') return form;
  throw refusal('bad-out', `--out ${out}`, 'name a file that ends in .pdf or .html');
}

/** A station by its id, else by its name, else by a part of its name that only one has. */
function stationIdOf(archive: Archive, named: string): string {
  const stations = archive.stations.list().map(({ stationId }) => ({
    stationId,
    name: archive.stations.newestDesign(stationId)?.name ?? stationId,
  }));
  const asked = named.trim().toLowerCase();
  const exact = stations.filter(({ stationId, name }) =>
    [stationId, name].some((word) => word.toLowerCase() === asked),
  );
  const found = exact.length > 0 ? exact : stations.filter(({ name }) => name.toLowerCase().includes(asked));
  const [one, another] = found;
  const where = `"${named}"`;
  if (one === undefined)
    throw refusal(
      'no-such-visit',
      where,
      stations.length === 0
        ? 'the archive holds no station; name its folder with --data'
        : `no visit and no station is called that; there are ${stations
            .slice(0, 6)
            .map(({ name }) => name)
            .join(', ')}${stations.length > 6 ? ', ...' : ''}`,
    );
  if (another !== undefined)
    throw refusal(
      'not-one',
      where,
      `${found.map(({ name }) => name).join(' and ')} are called that; say which`,
    );
  return one.stationId;
}

/** "2026-01-01..2026-03-31": both days are meant whole, by this machine's clock. */
function periodOf(named: string): ReportOf | null {
  const days = /^(\d{4}-\d\d-\d\d)\.\.(\d{4}-\d\d-\d\d)$/.exec(named.trim());
  if (days === null) return null;
  const midnight = (day: string, after: number): Date => {
    const [year = 0, month = 1, at = 1] = day.split('-').map(Number);
    const date = new Date(year, month - 1, at + after);
    // 31 February would be a day in March.
    if (new Date(year, month - 1, at).getDate() !== at || month > 12)
      throw refusal('bad-period', named, `${day} is no day; write YYYY-MM-DD`);
    return date;
  };
  const [from, to] = [midnight(days[1] ?? '', 0), midnight(days[2] ?? '', 1)];
  if (from >= to) throw refusal('bad-period', named, 'the first day must not be after the last');
  return { kind: 'period', from: from.toISOString(), to: to.toISOString() };
}

function reportOf(archive: Archive, visit: string, options: Options): ReportOf {
  const period = periodOf(visit);
  if (period !== null) return period;
  const own = archive.visits.byId(visit.trim().toLowerCase());
  if (options.history === true)
    return { kind: 'history', stationId: own?.stationId ?? stationIdOf(archive, visit) };
  const visitId = own?.visitId ?? archive.visits.ofStation(stationIdOf(archive, visit))[0]?.visitId;
  if (visitId === undefined)
    throw refusal('no-visit', `"${visit}"`, 'nobody has visited this station yet; begin a visit and read it');
  return options.label === undefined
    ? { kind: 'visit', visitId }
    : { kind: 'label', visitId, count: options.label };
}

async function act(visit: string, options: Options, io: VerbIo): Promise<Outcome> {
  const form = formOf(options.out);
  // Only now: they bring the archive's native part and the type of the page, which no other verb needs.
  const { withArchive } = await import('../archive-folder.ts');
  const { createDesigns } = await import('../../backend/services/designs.ts');
  const { createSettings } = await import('../../backend/services/settings.ts');
  const { createFigureBook } = await import('../../backend/services/quality-figures.ts');
  const { createPeriods } = await import('../../backend/services/quality-period.ts');
  const { createReports } = await import('../../backend/services/reports.ts');
  const now = () => new Date();
  return await withArchive(options.data, async (archive) => {
    const designs = createDesigns(archive);
    const emit = () => undefined;
    const settings = createSettings({ archive, now, emit }, designs);
    const reports = createReports({
      archive,
      designs,
      settings,
      emit,
      now,
      period: createPeriods(archive, createFigureBook(archive, designs, settings)).period,
      version: packed.version,
      // The archive is this program's alone: what has no end was cut short.
      unended: () => ({ state: 'partial', reason: null, endedAtMs: null }),
    });
    const of = reportOf(archive, visit, options);
    const paper = options.paper ?? usualPaper(Intl.DateTimeFormat().resolvedOptions().locale);
    const { base64 } = await reports.make({ of, form, paper }, io.signal);
    const bytes = Buffer.from(base64, 'base64');
    await writeOutput(options.out, bytes);
    return answered(
      { ...of, out: options.out, form, paper, bytes: bytes.length },
      `${options.out}: ${of.kind}, ${form.toUpperCase()}, ${paper === 'a4' ? 'A4' : 'Letter'}, ${Math.ceil(bytes.length / 1024)} KB`,
    );
  });
}

function paperOption(value: string): Paper {
  const paper = value.toLowerCase();
  if (paper === 'a4' || paper === 'letter') return paper;
  throw new InvalidArgumentError('give a4 or letter');
}

export const report: Verb = {
  name: 'report',
  summary: "a station's visit on paper",
  register(program: Command, run: RunVerb) {
    program
      .command('report')
      .summary(report.summary)
      .description(
        'Writes a visit as PDF or as one page of HTML that needs nothing else: the finding, before and after, parts,\n' +
          'uncertainty, every reading and the hashes of the records. Both are drawn from one document.',
      )
      .argument(
        '<visit>',
        "a visit's id; a station's id or name for its newest visit; or a period, 2026-01-01..2026-03-31",
      )
      .requiredOption('--out <file>', 'a new file that ends in .pdf or .html; nothing is written over')
      .option('--data <dir>', 'the folder of the archive; without it, your own data folder')
      .option('--paper <size>', 'a4 or letter; without it, what is usual in your country', paperOption)
      .option('--history', 'every visit to the station instead of one')
      .option(
        '--label <count>',
        'labels for the inside of the lid instead, so many',
        numberOption('a count', 1),
      )
      .option(...jsonFlag)
      .action((visit: string, options: Options, command: Command) =>
        run(command, (io) => act(visit, options, io)),
      );
  },
};
