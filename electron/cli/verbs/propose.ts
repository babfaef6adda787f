import type { Command } from 'commander';
import { Refused } from '../../../core/bridge/refused.ts';
import { MeterUncertainty } from '../../../core/files/meter-uncertainty.ts';
import { readStation, type Station } from '../../../core/files/station.ts';
import { readStationNotes, type StationNotes } from '../../../core/files/station-notes.ts';
import { readTruck, type Truck } from '../../../core/files/truck.ts';
import { explainProposal } from '../../../core/propose/explain.ts';
import type { Choice } from '../../../core/propose/objective.ts';
import {
  DEFAULT_SLACK_DB,
  type Proposal,
  type ProposeRefusal,
  propose as proposeFor,
} from '../../../core/propose/propose.ts';
import { stageNoteText } from '../../../core/propose/stage-input.ts';
import { refuse } from '../../../core/result.ts';
import { type LevelUnitWord, levelWord } from '../../../core/words/numbers.ts';
import { levelCell, type UnitOption, unitOption } from '../level-option.ts';
import { numberOption } from '../number-option.ts';
import { answered, type Outcome, refused } from '../outcome.ts';
import { readInput } from '../read-input.ts';
import { levelsIn, type SweepOptions, withSweepOptions } from '../sweep-option.ts';
import { aligned, decibels, megahertz, signed } from '../table.ts';
import { jsonFlag, type RunVerb, type Verb } from '../verb.ts';

type Options = UnitOption &
  SweepOptions &
  Readonly<{
    station: string;
    port?: string;
    inputSweep?: string;
    slack: number;
    keepAll?: true;
    truck?: string;
    notes?: string;
    uncertainty?: true;
    ambientC?: number;
  }>;

async function stationIn(file: string): Promise<Station> {
  const station = readStation(await readInput(file), file);
  if (!station.ok) throw new Refused(station);
  return station.value;
}

async function truckIn(file: string | undefined): Promise<Truck | null> {
  if (file === undefined) return null;
  const truck = readTruck(await readInput(file), file);
  if (!truck.ok) throw new Refused(truck);
  return truck.value;
}

async function notesIn(file: string | undefined, station: Station): Promise<StationNotes | null> {
  if (file === undefined) return null;
  const notes = readStationNotes(await readInput(file), file);
  if (!notes.ok) throw new Refused(notes);
  const ports = station.ports.map(({ name }) => name);
  const stray = notes.value.trims?.find(({ port }) => port !== undefined && !ports.includes(port));
  if (stray !== undefined)
    throw new Refused(
      refuse('no-such-port', `${file}, trim "${stray.name}"`, `${station.name} has no port "${stray.port}"`),
    );
  return notes.value;
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
    case 'bad-design':
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

const given = (choice: Pick<Choice, 'worstDb' | 'flatnessDb' | 'fit'>, unit: LevelUnitWord): string[] => [
  `worst ${decibels(choice.worstDb)} dB`,
  `flatness ${decibels(choice.flatnessDb)} dB`,
  `tilt ${signed(choice.fit.tiltDb)} dB`,
  `${levelCell(choice.fit.lowDbmv, unit)} to ${levelCell(choice.fit.highDbmv, unit)} ${levelWord(unit)}`,
];

/** The predicted line is a sweep of its own (JSON has it); a person wants how good it is. */
function predictedText({ predicted }: Proposal): string[] {
  if (predicted === undefined) return [];
  const widest = Math.max(...predicted.map(({ uDb }) => uDb));
  const next = Math.max(...predicted.map(({ toNextUDb }) => toNextUDb));
  return [
    `Predicted levels are good to ±${decibels(1.96 * widest)} dB, the next sweep with this meter to ±${decibels(1.96 * next)} dB (95 of 100).`,
  ];
}

/** The same proposal, with the sentence on the stage input in the unit of the text. */
const saidIn = (proposal: Proposal, { stageInput }: Station, unit: LevelUnitWord): Proposal =>
  proposal.stageInput === null || stageInput === undefined
    ? proposal
    : {
        ...proposal,
        stageInput: {
          ...proposal.stageInput,
          note: stageNoteText(proposal.stageInput, stageInput.port, unit),
        },
      };

/** The proposal as a person reads it. */
function textOf(proposal: Proposal, station: Station, explained: string, unit: LevelUnitWord): string {
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
      ['Now', ...given(before, unit)],
      ['Then', ...given(recommended, unit)],
      ...(recommended.withTrims === undefined ? [] : [['Trimmed', ...given(recommended.withTrims, unit)]]),
    ]),
    ...(recommended.withTrims?.moves.map(({ name, text }) => `Trim "${name}": ${text}`) ?? []),
    '',
    proposal.why.text,
    proposal.remains.text,
    ...(proposal.beyondTruck == null ? [] : [proposal.beyondTruck.text]),
    ...predictedText(proposal),
    ...(proposal.signals?.notes.map((text) => `Note: ${text}`) ?? []),
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
  const rows = await levelsIn(file, options);
  const inputRows = options.inputSweep === undefined ? undefined : await levelsIn(options.inputSweep);
  const truck = await truckIn(options.truck);
  const notes = await notesIn(options.notes, station);
  const meter = notes?.meter ?? MeterUncertainty.parse({});
  const proposal = proposeFor({
    truck,
    trims: notes?.trims,
    lineUp: notes?.lineUp,
    uncertainty: options.uncertainty === true ? { meter, ambientC: options.ambientC ?? null } : null,
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
  const unit = options.unit ?? 'dBmV';
  const said = saidIn(proposal.value, station, unit);
  return answered(
    { ...proposal.value, explained },
    textOf(said, station, explainProposal(said, design), unit),
    proposal.value.feasible ? 'pass' : 'fail',
  );
}

export const propose: Verb = {
  name: 'propose',
  summary: 'which pads and equalizers to change',
  register(program: Command, run: RunVerb) {
    withSweepOptions(program.command('propose'))
      .summary(propose.summary)
      .description(
        'Chooses plug-ins so that a port comes nearest to its design: the exact best of every combination in the kit,\n' +
          'and the recommended one, with the fewest changes. Losses in dB, levels in dBmV.\n' +
          'Exit 1 when no combination keeps the stage input within its limits.',
      )
      .argument('<file>', 'sweep of the port: CSV or a pasted table')
      .requiredOption('--station <file>', 'station as JSON: its design, its positions and what is installed')
      .option('--port <name>', 'the port that was read; default: the first with a design')
      .option('--input-sweep <file>', "sweep of the stage input's port, so that its limits are kept")
      .option(
        '--slack <dB>',
        'what a further change must buy',
        numberOption('the slack in dB', 0),
        DEFAULT_SLACK_DB,
      )
      .option('--truck <file>', 'what is in the truck, as JSON: no part is named that is not there')
      .option('--notes <file>', "the station's notes as JSON: its line-up, trims and meter")
      .option('--uncertainty', 'add the predicted sweep with what it is uncertain by')
      .option(
        '--ambient-c <C>',
        'temperature at the meter, for its uncertainty',
        numberOption('the temperature in degrees C', -90),
      )
      .option('--keep-all', 'take every row with a frequency and a level as it stands')
      .option(...unitOption)
      .option(...jsonFlag)
      .action((file: string, options: Options, command: Command) => run(command, () => act(file, options)));
  },
};
