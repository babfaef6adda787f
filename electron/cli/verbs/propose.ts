import type { Command } from 'commander';
import { Refused } from '../../../core/bridge/refused.ts';
import { readStation, type Station } from '../../../core/files/station.ts';
import { readSweepCsv } from '../../../core/files/sweep-csv.ts';
import type { LevelRow } from '../../../core/line/level-row.ts';
import { explainProposal } from '../../../core/propose/explain.ts';
import type { Choice } from '../../../core/propose/objective.ts';
import {
  DEFAULT_SLACK_DB,
  type Proposal,
  type ProposeRefusal,
  propose as proposeFor,
} from '../../../core/propose/propose.ts';
import { numberOption } from '../number-option.ts';
import { answered, type Outcome, refused } from '../outcome.ts';
import { readInput } from '../read-input.ts';
import { aligned, decibels, megahertz, signed } from '../table.ts';
import { jsonFlag, type RunVerb, type Verb } from '../verb.ts';

type Options = Readonly<{
  station: string;
  port?: string;
  inputSweep?: string;
  slack: number;
  keepAll?: true;
}>;

async function rowsIn(file: string): Promise<readonly LevelRow[]> {
  const sweep = readSweepCsv(await readInput(file), file);
  if (!sweep.ok) throw new Refused(sweep);
  return sweep.value.rows;
}

async function stationIn(file: string): Promise<Station> {
  const station = readStation(await readInput(file), file);
  if (!station.ok) throw new Refused(station);
  return station.value;
}

/** Which of the files a refusal is about. */
function fileOf(code: ProposeRefusal, sweep: string, options: Options): string {
  switch (code) {
    case 'no-usable-rows':
    case 'too-few':
    case 'one-frequency':
    case 'not-finite':
      return sweep;
    case 'no-input-level':
      return options.inputSweep ?? sweep;
    case 'no-such-port':
    case 'no-design':
    case 'no-such-position':
    case 'bad-value':
    case 'too-many':
      return options.station;
  }
}

const changesOf = (choice: Choice): string =>
  choice.changes.length === 0
    ? 'no change'
    : choice.changes.map(({ position, from, to }) => `${position} ${from} to ${to}`).join(', ');

const given = (choice: Omit<Choice, 'values' | 'changes'>): string[] => [
  `worst ${decibels(choice.worstDb)} dB`,
  `flatness ${decibels(choice.flatnessDb)} dB`,
  `tilt ${signed(choice.fit.tiltDb)} dB`,
  `${decibels(choice.fit.lowDbmv)} to ${decibels(choice.fit.highDbmv)} dBmV`,
];

/** The proposal as a person reads it. */
function textOf(proposal: Proposal, station: Station, explained: string): string {
  const { before, best, recommended, alternatives, stageInput, excluded } = proposal;
  const change = recommended.changes.map(({ position, from, to }) => [position, `${from}`, 'to', `${to} dB`]);
  const others = [best, ...alternatives].filter(
    (choice, i, all) =>
      changesOf(choice) !== changesOf(recommended) &&
      all.findIndex((one) => changesOf(one) === changesOf(choice)) === i,
  );
  const left = excluded.map((row) => [
    row.frequencyMhz === null ? '' : megahertz(row.frequencyMhz),
    row.reason,
  ]);
  return [
    `${station.name}, ${proposal.portName}: ${proposal.count} carriers`,
    explained,
    '',
    ...(change.length === 0 ? ['Change nothing'] : ['Change', ...aligned(change, '  ')]),
    ...aligned([
      ['Now', ...given(before)],
      ['Then', ...given(recommended)],
    ]),
    ...(others.length === 0
      ? []
      : [
          '',
          'Nearly as good, or better with more changes',
          ...aligned(
            others.map((choice) => [`worst ${decibels(choice.worstDb)} dB`, changesOf(choice)]),
            '  ',
          ),
        ]),
    ...(stageInput === null ? [] : ['', stageInput.note]),
    ...(left.length === 0 ? [] : ['', 'Left out', ...aligned(left, '  ')]),
  ].join('\n');
}

async function act(file: string, options: Options): Promise<Outcome> {
  const station = await stationIn(options.station);
  const rows = await rowsIn(file);
  const inputRows = options.inputSweep === undefined ? undefined : await rowsIn(options.inputSweep);
  const proposal = proposeFor({
    rows,
    station,
    portName: options.port,
    inputRows,
    slackDb: options.slack,
    keepAll: options.keepAll,
  });
  if (!proposal.ok)
    return refused({ ...proposal, where: `${fileOf(proposal.code, file, options)}, ${proposal.where}` });
  const design = station.ports.find((port) => port.name === proposal.value.portName)?.design;
  if (design === undefined) throw new RangeError('a proposal for a port without a design');
  const explained = explainProposal(proposal.value, design);
  return answered(
    { ...proposal.value, explained },
    textOf(proposal.value, station, explained),
    proposal.value.feasible ? 'pass' : 'fail',
  );
}

export const propose: Verb = {
  name: 'propose',
  summary: 'which pads and equalizers to change',
  register(program: Command, run: RunVerb) {
    program
      .command('propose')
      .summary(propose.summary)
      .description(
        'Chooses plug-ins so that a port comes nearest to its design: the exact best of every combination in the kit,\n' +
          'and the recommended one, with the fewest changes. Losses in dB, levels in dBmV.\n' +
          'Exit 1 when no combination keeps the stage input within its limits.',
      )
      .argument('<file>', 'sweep of the port as CSV: frequency_mhz,level_dbmv')
      .requiredOption('--station <file>', 'station as JSON: its design, its positions and what is installed')
      .option('--port <name>', 'the port that was read; default: the first with a design')
      .option('--input-sweep <file>', "sweep of the stage input's port, so that its limits are kept")
      .option(
        '--slack <dB>',
        'what a further change must buy',
        numberOption('the slack in dB', 0),
        DEFAULT_SLACK_DB,
      )
      .option('--keep-all', 'take every row with a frequency and a level as it stands')
      .option(...jsonFlag)
      .action((file: string, options: Options, command: Command) => run(command, () => act(file, options)));
  },
};
