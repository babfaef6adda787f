import type { Command } from 'commander';
import { adviseGainControl, type GainControlAdvice, middleIn } from '../../../core/gain-control/advise.ts';
import { type Basis, basisWords } from '../../../core/gain-control/basis.ts';
import { RANGE_UNCERTAINTY_DB, type RangeTest } from '../../../core/gain-control/range.ts';
import { PER_DEGREE_C } from '../../../core/gain-control/span-offset.ts';
import { numberOption } from '../number-option.ts';
import { answered, type Outcome, refused } from '../outcome.ts';
import { aligned, decibels, megahertz, signed } from '../table.ts';
import { jsonFlag, type RunVerb, type Verb } from '../verb.ts';

type Options = Readonly<{
  topMhz: number;
  ambientC?: number;
  ambientF?: number;
  spanDb?: number;
  perDegreeC: number;
  rangeUp?: number;
  rangeDown?: number;
  uncertaintyDb: number;
}>;

const verdictWords: Readonly<Record<RangeTest['verdict'], string>> = {
  pass: 'inside its limits',
  undecided: 'outside by no more than the uncertainty of the reading',
  fail: 'outside its limits',
};

/** The advice as a person reads it. */
function textOf(advice: GainControlAdvice, asked: Pick<Options, 'topMhz' | 'ambientF'>): string {
  const { ambientOffsetDb, ambientBasis, spanOffsetDb, range } = advice;
  const basis = (of: Basis | null) => (of === null ? '' : basisWords(of));
  const rows = [['Reserve', `${decibels(advice.reserveDb)} dB`, basis(advice.reserveBasis)]];
  if (ambientOffsetDb !== null)
    rows.push(['Ambient, by the rule', `${signed(ambientOffsetDb)} dB`, basis(ambientBasis)]);
  if (spanOffsetDb !== null)
    rows.push([
      'Ambient, this span',
      `${signed(spanOffsetDb)} dB`,
      `against ${middleIn(asked)}, from its loss`,
    ]);
  if (range !== null)
    rows.push(
      ['Range up', `${decibels(range.upDb)} dB`, 'limits 3 to 5 dB'],
      ['Range down', `${decibels(range.downDb)} dB`, 'limits 5 to 7 dB'],
      ['Range in all', `${decibels(range.totalDb)} dB`, 'limits 9.5 to 11.5 dB'],
      ['Range test', range.verdict, verdictWords[range.verdict]],
    );
  return [
    `Gain control, at ${megahertz(asked.topMhz)}`,
    ...aligned(rows),
    ...advice.notes.map((note) => `Note: ${note}`),
  ].join('\n');
}

function act(options: Options): Outcome {
  const advice = adviseGainControl({
    topMhz: options.topMhz,
    perDegreeC: options.perDegreeC,
    uncertaintyDb: options.uncertaintyDb,
    ...(options.ambientC === undefined ? {} : { ambientC: options.ambientC }),
    ...(options.ambientF === undefined ? {} : { ambientF: options.ambientF }),
    ...(options.spanDb === undefined ? {} : { spanDb: options.spanDb }),
    ...(options.rangeUp === undefined ? {} : { rangeUpDb: options.rangeUp }),
    ...(options.rangeDown === undefined ? {} : { rangeDownDb: options.rangeDown }),
  });
  if (!advice.ok) return refused(advice);
  const verdict = advice.value.range?.verdict ?? null;
  return answered(
    { ...advice.value },
    textOf(advice.value, options),
    verdict === 'undecided' ? null : verdict,
  );
}

const anyTemperature = numberOption('a temperature', -500);
const anyDb = (what: string) => numberOption(`${what} in dB`, 0);

export const gainControl: Verb = {
  name: 'gain-control',
  summary: 'reserve, ambient compensation and the verdict of a range test',
  register(program: Command, run: RunVerb) {
    program
      .command('gain-control')
      .summary(gainControl.summary)
      .description(
        'How far below its maximum a gain control is set (dB at the highest frequency), what the day adds to it by the\n' +
          'rule and by the span, and whether a range test passes. The rules: common practice, no published source.\n' +
          'Ends with 1 when the range test fails.',
      )
      .requiredOption(
        '--top-mhz <MHz>',
        "the plant's highest frequency",
        numberOption('a frequency in MHz', 0),
      )
      .option('--ambient-c <C>', 'air today, degrees C', anyTemperature)
      .option('--ambient-f <F>', 'air today, degrees F; instead of C', anyTemperature)
      .option('--span-db <dB>', 'loss of the span at the highest frequency', anyDb('a loss'))
      .option(
        '--per-degree-c <part>',
        'part of that loss by which it changes a degree C',
        numberOption('a part of the loss', 0),
        PER_DEGREE_C,
      )
      .option('--range-up <dB>', 'range test: how far above the set level', anyDb('a range'))
      .option('--range-down <dB>', 'range test: how far below it, without a sign', anyDb('a range'))
      .option(
        '--uncertainty-db <dB>',
        'of the readings of the range test',
        anyDb('an uncertainty'),
        RANGE_UNCERTAINTY_DB,
      )
      .option(...jsonFlag)
      .action((options: Options, command: Command) => run(command, () => act(options)));
  },
};
