import { type Command, Option } from 'commander';
import { type ExportFormat, exportFormats, exportSweep } from '../../../core/files/export-sweep.ts';
import { writeTouchstone } from '../../../core/files/touchstone/write-touchstone.ts';
import { done, type Result, refuse } from '../../../core/result.ts';
import { answered, type Outcome, refused } from '../outcome.ts';
import { levelsIn, type SweepOptions, sweepIn, withSweepOptions } from '../sweep-option.ts';
import { jsonFlag, type RunVerb, type Verb } from '../verb.ts';
import { writeOutput } from '../write-output.ts';

type Options = SweepOptions &
  Readonly<{ to: ExportFormat; out: string; inputSweep?: string; decimal: 'comma' | 'point' }>;

async function textIn(
  file: string,
  options: Options,
): Promise<Result<Readonly<{ text: string; count: number }>>> {
  const { holds, rows, notes } = await sweepIn(file, options);
  if (holds === 'response') {
    if (options.to !== 's2p')
      return refuse('not-levels', file, 'it holds a response in dB; only --to s2p writes it again');
    const points = rows.flatMap(({ frequencyMhz, levelDbmv: gainDb }) =>
      frequencyMhz === null || gainDb === null ? [] : [{ frequencyMhz, gainDb }],
    );
    return done({ text: writeTouchstone(points, notes), count: points.length });
  }
  const inputRows = options.inputSweep === undefined ? undefined : await levelsIn(options.inputSweep);
  const source = { rows, comments: notes, ...(inputRows === undefined ? {} : { inputRows }) };
  const text = exportSweep(source, options.to, options.decimal === 'comma' ? ',' : '.');
  if (text.ok) return done({ text: text.value, count: rows.length });
  return text.code === 'no-input'
    ? { ...text, where: file, help: `${text.help} (--input-sweep FILE)` }
    : { ...text, where: `${file}, ${options.inputSweep ?? ''}` };
}

async function act(file: string, options: Options): Promise<Outcome> {
  const made = await textIn(file, options);
  if (!made.ok) return refused(made);
  await writeOutput(options.out, made.value.text);
  const { count } = made.value;
  return answered(
    { file: options.out, format: options.to, count },
    `${options.out}: ${count} ${count === 1 ? 'row' : 'rows'}, ${options.to}`,
  );
}

export const convert: Verb = {
  name: 'convert',
  summary: 'writes a sweep as another kind of file',
  register(program: Command, run: RunVerb) {
    withSweepOptions(program.command('convert'))
      .summary(convert.summary)
      .description(
        'Reads a sweep in any dialect and writes it anew: own (frequency_mhz,level_dbmv), exchange (comma, point, CR LF),\n' +
          'spreadsheet (byte order mark, semicolons, decimal commas), json, or s2p: the response of --input-sweep to FILE.',
      )
      .argument('<file>', 'sweep: CSV, a pasted table, or .s2p')
      .addOption(new Option('--to <format>', 'what to write').choices(exportFormats).makeOptionMandatory())
      .requiredOption('--out <file>', 'a new file; nothing is written over')
      .option('--input-sweep <file>', 'what went in, for a response')
      .addOption(
        new Option('--decimal <sign>', 'of the spreadsheet preset')
          .choices(['comma', 'point'])
          .default('comma'),
      )
      .option(...jsonFlag)
      .action((file: string, options: Options, command: Command) => run(command, () => act(file, options)));
  },
};
