import { type Command, Option } from 'commander';
import { Refused } from '../../../core/bridge/refused.ts';
import type { LineUpEntry } from '../../../core/channels/line-up.ts';
import type { SweepFile } from '../../../core/files/read-sweep-file.ts';
import { readStationNotes } from '../../../core/files/station-notes.ts';
import { fitSweep, type SweepFit } from '../../../core/line/fit-sweep.ts';
import type { Shape } from '../../../core/line/position.ts';
import { refuse } from '../../../core/result.ts';
import { type LevelUnitWord, levelWord } from '../../../core/words/numbers.ts';
import { levelCell, type UnitOption, unitOption } from '../level-option.ts';
import { numberOption } from '../number-option.ts';
import { answered, type Outcome, refused } from '../outcome.ts';
import { readInput } from '../read-input.ts';
import { type SweepOptions, sweepIn, withSweepOptions } from '../sweep-option.ts';
import { aligned, decibels, megahertz, signed } from '../table.ts';
import { jsonFlag, type RunVerb, type Verb } from '../verb.ts';

type Options = UnitOption &
  SweepOptions &
  Readonly<{ shape: Shape; low?: number; high?: number; keepAll?: true; lineUp?: string }>;

/** One decimal is what a meter deserves; what so many carriers leave open of their line is often less than that. */
const hundredths = (valueDb: number): string => valueDb.toFixed(2);

const shapeWords: Readonly<Record<Shape, string>> = {
  linear: 'straight in frequency',
  cable: 'straight in the root of frequency',
};

/** The fit as a person reads it. */
function textOf(fit: SweepFit, file: string, unit: LevelUnitWord, { holds, notes }: SweepFile): string {
  const isResponse = holds === 'response';
  const shown = (valueDb: number) => (isResponse ? decibels(valueDb) : levelCell(valueDb, unit));
  const word = isResponse ? 'dB' : levelWord(unit);
  const lines = aligned([
    [isResponse ? 'Gain' : 'Level', shown(fit.lowDbmv), word, `at ${megahertz(fit.lowMhz)}`],
    ['', shown(fit.highDbmv), word, `at ${megahertz(fit.highMhz)}`],
    ['Tilt', signed(fit.tiltDb), 'dB', shapeWords[fit.shape]],
    ['Flatness', decibels(fit.flatnessDb), 'dB', 'highest to lowest about the line'],
    ['', decibels(fit.rmsDb), 'dB', 'root mean square'],
    ['Worst', signed(fit.worst.deviationDb), 'dB', `at ${megahertz(fit.worst.frequencyMhz)}`],
  ]);
  const { standardErrors: errors } = fit;
  const left = fit.excluded.map((row) => [
    row.frequencyMhz === null ? '' : megahertz(row.frequencyMhz),
    row.reason,
  ]);
  return [
    `${file}: ${fit.count} ${isResponse ? 'points' : 'carriers'}`,
    ...lines,
    ...(errors === null
      ? []
      : [
          `Standard errors of the line: ${hundredths(errors.lowDb)} dB at its low end, ${hundredths(errors.highDb)} dB at its high end, ${hundredths(errors.tiltDb)} dB of tilt.`,
        ]),
    ...(left.length === 0 ? [] : ['Left out', ...aligned(left, '  ')]),
    ...notes.map((note) => `Note: ${note}`),
    ...fit.findings.map((finding) => `Note: ${finding.text}`),
  ].join('\n');
}

/** What each channel carries, from a station's notes; null where no file is named. */
async function lineUpIn(file: string | undefined): Promise<readonly LineUpEntry[] | null> {
  if (file === undefined) return null;
  const notes = readStationNotes(await readInput(file), file);
  if (!notes.ok) throw new Refused(notes);
  if (notes.value.lineUp === undefined)
    throw new Refused(refuse('no-line-up', file, 'has no "lineUp"; leave --line-up out, or write one'));
  return notes.value.lineUp;
}

async function act(file: string, options: Options): Promise<Outcome> {
  const lineUp = await lineUpIn(options.lineUp);
  const sweep = await sweepIn(file, options);
  const fit = fitSweep(sweep.rows, {
    shape: options.shape,
    lowMhz: options.low,
    highMhz: options.high,
    keepAll: options.keepAll,
    lineUp,
  });
  if (!fit.ok) return refused({ ...fit, where: `${file}, ${fit.where}` });
  return answered({ ...fit.value }, textOf(fit.value, file, options.unit ?? 'dBmV', sweep));
}

export const fit: Verb = {
  name: 'fit',
  summary: 'level, tilt and flatness of a sweep',
  register(program: Command, run: RunVerb) {
    withSweepOptions(program.command('fit'))
      .summary(fit.summary)
      .description(
        'Fits a line to a sweep: level at its low and its high end (dBmV), tilt, flatness and the worst carrier (dB).\n' +
          'Rows that are plainly no carriers at their level are left out and named, and kinds of signal at different\n' +
          'levels are joined by the step between them, unless --keep-all.',
      )
      .argument('<file>', 'sweep: CSV, a pasted table, or .s2p (its S21 in dB)')
      .addOption(
        new Option('--shape <shape>', 'straight in frequency, or in its root as the loss of cable')
          .choices(['linear', 'cable'])
          .default('linear'),
      )
      .option(
        '--low <MHz>',
        "low end of the line; default: the sweep's",
        numberOption('a frequency in MHz', 0),
      )
      .option(
        '--high <MHz>',
        "high end of the line; default: the sweep's",
        numberOption('a frequency in MHz', 0),
      )
      .option(
        '--line-up <file>',
        "a station's notes as JSON: what each channel carries, so that each is compared with its own level",
      )
      .option('--keep-all', 'take every row with a frequency and a level as it stands')
      .option(...unitOption)
      .option(...jsonFlag)
      .action((file: string, options: Options, command: Command) => run(command, () => act(file, options)));
  },
};
