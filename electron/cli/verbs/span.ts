import type { Command } from 'commander';
import { CABLES } from '../../../core/coax/cables.ts';
import { cableNamed } from '../../../core/coax/loss.ts';
import { lengthForLossM } from '../../../core/coax/span.ts';
import { type SpanCheck, spanCheck } from '../../../core/coax/span-check.ts';
import { type SpanFigures, spanFigures } from '../../../core/coax/span-figures.ts';
import { type Sent, spanReadings } from '../../../core/coax/span-readings.ts';
import { PER_DEGREE_F, PER_DEGREE_F_OTHER, REFERENCE_C } from '../../../core/coax/temperature.ts';
import { readStation } from '../../../core/files/station.ts';
import { readSweepCsv } from '../../../core/files/sweep-csv.ts';
import type { LevelRow } from '../../../core/line/level-row.ts';
import { forwardOutput } from '../../../core/noise/stage-level.ts';
import { type Refusal, refuse } from '../../../core/result.ts';
import { SEASON_DEFAULTS } from '../../../core/season/rows.ts';
import { feetFromMetres, metresFromFeet } from '../../../core/units.ts';
import { numberOption } from '../number-option.ts';
import { answered, type Outcome, refused } from '../outcome.ts';
import { readInput } from '../read-input.ts';
import { aligned, decibels, megahertz, signed } from '../table.ts';
import { jsonFlag, type RunVerb, type Verb } from '../verb.ts';

type Options = Readonly<{
  cable: string;
  lengthM?: number;
  lengthFt?: number;
  lossDb?: number;
  lowMhz: number;
  highMhz: number;
  topMhz?: number;
  perDegreeF: number;
  coldC: number;
  nowC: number;
  hotC: number;
  riseDb: number;
  received?: string;
  sent?: string;
  station?: string;
}>;

const metres = (lengthM: number): string =>
  `${Math.round(lengthM)} m (${Math.round(feetFromMetres(lengthM))} ft)`;
const dayNames = { cold: 'Cold', now: 'Now', hot: 'Hot' } as const;
const findings: Readonly<Record<SpanCheck['finding'], string>> = {
  plausible: 'it loses what it should',
  longer: 'it loses more, as a longer cable would: look at length and type',
  shorter: 'it loses less, as a shorter cable would: look at length and type',
  flat: 'off by the same at both ends, which no cable is: look at splitters, test points and the level sent in',
  slanted: 'off in a way that no length explains: look at the cable type and the connectors',
};

function checkLines(check: SpanCheck): string[] {
  return [
    ...aligned([
      [
        'Measured',
        `${decibels(check.measuredHighDb)} dB`,
        `at ${megahertz(check.highMhz)}, computed ${decibels(check.computedHighDb)} dB`,
      ],
      ['More than computed', `${signed(check.excessLowDb)} dB`, `at ${megahertz(check.lowMhz)}`],
      ['', `${signed(check.excessHighDb)} dB`, `at ${megahertz(check.highMhz)}`],
      ['Uneven', `${decibels(check.unevenDb)} dB`, 'peak to peak about that'],
    ]),
    `Check: ${findings[check.finding]}; as ${metres(check.asIfLengthM)} would.`,
    ...(check.isUneven ? ['Uneven: look for a wet connector or a splice.'] : []),
  ];
}

function textOf(figures: SpanFigures, cable: string, check: SpanCheck | null): string {
  const { equalizer, days, highMhz, lowMhz } = figures;
  return [
    `${metres(figures.lengthM)} of ${cable}`,
    ...aligned([
      ['', 'Cable', megahertz(lowMhz), megahertz(highMhz), 'Tilt'],
      ...days.map(({ day, ambientC, lossLowDb, lossHighDb, tiltDb }) => [
        dayNames[day],
        `${Number(ambientC.toFixed(1))} °C`,
        `${decibels(lossLowDb)} dB`,
        `${decibels(lossHighDb)} dB`,
        `${decibels(tiltDb)} dB`,
      ]),
    ]),
    'valueDb' in equalizer
      ? `Equalizers: ${decibels(equalizer.valueDb)} dB at ${megahertz(equalizer.topMhz)}, for ${decibels(equalizer.takeAwayDb)} dB of slope now`
      : `Equalizers: none; ${equalizer.help}`,
    ...(check === null ? [] : checkLines(check)),
    `Loss table: ${figures.per100Ft.basis}${figures.per100Ft.beyondTable ? ', carried on past its last point' : ''}; no manufacturer's figure.`,
  ].join('\n');
}

async function rowsOf(file: string): Promise<readonly LevelRow[] | Refusal> {
  const read = readSweepCsv(await readInput(file), file);
  return read.ok ? read.value.rows : read;
}

/** What went into the span: a sweep, or the design of a station. */
async function sentOf({ sent, station }: Options): Promise<Sent | Refusal> {
  if (sent !== undefined) {
    const rows = await rowsOf(sent);
    return 'code' in rows ? rows : { from: 'sweep', rows };
  }
  if (station === undefined)
    return refuse(
      'bad-command',
      '--received',
      'say what was sent too: --sent FILE, or --station S.json for its design',
    );
  const read = readStation(await readInput(station), station);
  if (!read.ok) return read;
  const port = forwardOutput(read.value);
  return port.ok ? { from: 'design', design: port.value.design } : port;
}

async function checkOf(
  options: Options,
  span: Parameters<typeof spanCheck>[0],
): Promise<SpanCheck | Refusal | null> {
  if (options.received === undefined) return null;
  const received = await rowsOf(options.received);
  if ('code' in received) return received;
  const sent = await sentOf(options);
  if ('code' in sent) return sent;
  const check = spanCheck(span, options.nowC, spanReadings(received, sent, null));
  return check.ok ? check.value : check;
}

async function act(options: Options): Promise<Outcome> {
  const { lengthM, lengthFt, lossDb, highMhz, perDegreeF } = options;
  const cable = cableNamed(options.cable);
  if (!cable.ok) return refused(cable);
  const given = [lengthM, lengthFt, lossDb].filter((one) => one !== undefined);
  if (given.length !== 1)
    return refused(refuse('bad-command', 'span', 'give one of --length-m, --length-ft and --loss-db'));
  const told =
    lossDb !== undefined
      ? lengthForLossM(cable.value, highMhz, lossDb)
      : { ok: true as const, value: lengthM ?? metresFromFeet(lengthFt ?? 0) };
  if (!told.ok) return refused(told);
  const span = { cable: cable.value, lengthM: told.value, perDegreeF };
  const figures = spanFigures({ ...options, ...span, riseToSpareDb: options.riseDb });
  if (!figures.ok) return refused(figures);
  const check = await checkOf(options, span);
  if (check !== null && 'code' in check) return refused(check);
  const { equalizer, per100Ft, ...rest } = figures.value;
  const { points: _, ...checked } = check ?? { points: [] };
  return answered(
    {
      cable: cable.value.name,
      ...{ basis: per100Ft.basis, beyondTable: per100Ft.beyondTable, ...rest },
      lengthFt: feetFromMetres(told.value),
      equalizer: 'valueDb' in equalizer ? equalizer : null,
      check: check === null ? null : checked,
    },
    textOf(figures.value, cable.value.name, check),
    check === null ? null : check.finding === 'plausible' && !check.isUneven ? 'pass' : 'fail',
  );
}

const mhzOption = numberOption('a frequency in MHz', 0);
const celsius = numberOption('a temperature in degrees C', -500);
const notNegative = (what: string) => numberOption(what, 0);

export const span: Verb = {
  name: 'span',
  summary: 'what a length of cable loses, over the band and the year, and whether sweeps agree',
  register(program: Command, run: RunVerb) {
    program
      .command('span')
      .summary(span.summary)
      .description(
        'Loss and tilt of a length of cable (dB), from its length or the other way about; the same on a cold and a hot day;\n' +
          'the equalizers for it. With --received it is held against the loss between two sweeps; ends with 1 when it does\n' +
          'not agree. The loss tables are public or from memory, no manufacturer’s; the answer says which.',
      )
      .requiredOption('--cable <name>', `one of ${CABLES.map(({ name }) => name).join(', ')}`)
      .option('--length-m <m>', 'how long it is', notNegative('a length in m'))
      .option('--length-ft <ft>', 'the same in feet', notNegative('a length in ft'))
      .option(
        '--loss-db <dB>',
        'or what it loses at the high frequency at 20 degrees C',
        notNegative('a loss in dB'),
      )
      .option('--low-mhz <MHz>', 'low end of the band', mhzOption, 54)
      .option('--high-mhz <MHz>', 'high end of the band', mhzOption, 870)
      .option('--top-mhz <MHz>', 'top frequency of the equalizers; the high end unless told', mhzOption)
      .option(
        '--per-degree-f <part>',
        `part of its loss by which it changes a degree F (${PER_DEGREE_F_OTHER} is in use too)`,
        notNegative('a part of the loss'),
        PER_DEGREE_F,
      )
      .option('--cold-c <C>', 'coldest cable, degrees C', celsius, SEASON_DEFAULTS.fromC)
      .option('--now-c <C>', 'cable now, and while the sweeps were read', celsius, REFERENCE_C)
      .option('--hot-c <C>', 'hottest cable, degrees C', celsius, SEASON_DEFAULTS.toC)
      .option(
        '--rise-db <dB>',
        'rise that is sent in beyond what the station is to send out',
        numberOption('a rise in dB', -200),
        0,
      )
      .option('--received <file>', 'sweep at the far end (CSV)')
      .option('--sent <file>', 'sweep of what goes in (CSV)')
      .option('--station <file>', 'or the station whose forward design goes in (JSON)')
      .option(...jsonFlag)
      .action((options: Options, command: Command) => run(command, () => act(options)));
  },
};
