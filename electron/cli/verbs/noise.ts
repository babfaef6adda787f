import type { Command } from 'commander';
import { installedOf, readStation, type Station } from '../../../core/files/station.ts';
import { readStationNotes, type StationNotes } from '../../../core/files/station-notes.ts';
import { readSweepCsv } from '../../../core/files/sweep-csv.ts';
import type { LevelRow } from '../../../core/line/level-row.ts';
import { carriedBy } from '../../../core/noise/carried.ts';
import type { Cascade } from '../../../core/noise/cascade-noise.ts';
import { type NoiseReport, type NoiseRow, noiseReport } from '../../../core/noise/noise-report.ts';
import { stationNoise } from '../../../core/noise/station-noise.ts';
import { type Refusal, type Result, refuse } from '../../../core/result.ts';
import { answered, type Outcome, refused } from '../outcome.ts';
import { readInput } from '../read-input.ts';
import { aligned, decibels } from '../table.ts';
import { jsonFlag, type RunVerb, type Verb } from '../verb.ts';

type Options = Readonly<{ notes: readonly string[]; inputSweep?: string; outputSweep?: string }>;
type Told = Readonly<{ station: Station; notes: StationNotes }>;

const names: Readonly<Record<NoiseRow['key'], string>> = {
  ...{ cnr: 'C/N', ctb: 'CTB', cso: 'CSO', xmod: 'XMOD', mer: 'MER, estimated' },
};
const unitOf = (key: NoiseRow['key']) => (key === 'cnr' || key === 'mer' ? 'dB' : 'dBc');
const figure = (key: NoiseRow['key'], value: number | null): string =>
  value === null ? '-' : `${decibels(value)} ${unitOf(key)}`;

const limitOf = ({ key, limit, inHandDb, verdict, doubtDb }: NoiseRow): string => {
  if (limit === null) return 'no limit';
  const hand =
    inHandDb === null
      ? ''
      : `, ${decibels(Math.abs(inHandDb))} dB ${inHandDb >= 0 ? 'in hand' : 'beyond it'}`;
  const memory = limit.basis === 'from memory' ? ', from memory' : '';
  const doubt = verdict === 'undecided' ? `, undecided: data sheets tell it to ${doubtDb} dB` : '';
  return `at ${limit.side} ${figure(key, limit.limitDb)}${hand}${doubt} (${limit.source}${memory})`;
};

function textOf(report: NoiseReport, station: Station, bandwidthMhz: number): string {
  const missing = [...new Set(report.rows.flatMap(({ missing: why }) => (why === null ? [] : [why.help])))];
  const why = [...new Set(report.rows.flatMap(({ limit }) => limit?.why ?? []))];
  return [
    `${station.name}: ${report.count} in cascade, C/N in ${bandwidthMhz} MHz`,
    ...aligned([
      ['', 'Here', 'Behind all', 'Limit at the terminal'],
      ...report.rows.map((row) => [
        names[row.key],
        figure(row.key, row.ownDb),
        figure(row.key, row.cascadeDb),
        limitOf(row),
      ]),
    ]),
    ...why.map((reason) => `Limit of analog distortion: ${reason}`),
    ...missing.map((help) => `Missing: ${help}`),
  ].join('\n');
}

async function rowsOf(file: string | undefined): Promise<readonly LevelRow[] | Refusal | null> {
  if (file === undefined) return null;
  const read = readSweepCsv(await readInput(file), file);
  return read.ok ? read.value.rows : read;
}

async function read(station: string, notes: string): Promise<Result<Told>> {
  const told = readStation(await readInput(station), station);
  if (!told.ok) return told;
  const said = readStationNotes(await readInput(notes), notes);
  return said.ok ? { ok: true, value: { station: told.value, notes: said.value } } : said;
}

async function act(files: readonly string[], options: Options): Promise<Outcome> {
  const { notes } = options;
  if (notes.length !== files.length)
    return refused(
      refuse(
        'bad-command',
        '--notes',
        `${files.length} stations and ${notes.length} notes: give the notes of each, in the same order`,
      ),
    );
  const told: Told[] = [];
  for (const [i, file] of files.entries()) {
    const one = await read(file, notes[i] ?? '');
    if (!one.ok) return refused(one);
    told.push(one.value);
  }
  const inputRows = await rowsOf(options.inputSweep);
  if (inputRows !== null && 'code' in inputRows) return refused(inputRows);
  const outputRows = await rowsOf(options.outputSweep);
  if (outputRows !== null && 'code' in outputRows) return refused(outputRows);
  const last = told.at(-1);
  if (last === undefined) return refused(refuse('bad-command', 'noise', 'name a station file'));
  const carried = carriedBy(last.notes.lineUp, outputRows ?? inputRows);
  const members: Cascade['members'][number][] = [];
  for (const { station, notes: of } of told) {
    if (of.amplifier === undefined) {
      members.push({ name: station.name, missing: true });
      continue;
    }
    // The sweeps are those of the last station; the others stand as their design says.
    const own = station === last.station;
    const noise = stationNoise(
      {
        ...{ station, pluggedIn: installedOf(station), lineUp: of.lineUp, gainDb: of.amplifier.gainDb },
        outputRows: own ? outputRows : null,
        inputRows: own ? inputRows : null,
      },
      of.amplifier,
      carried.bandwidthMhz,
    );
    if (!noise.ok) return refused(noise);
    members.push(noise.value);
  }
  const first = told[0]?.notes.cascade;
  const cascade = { source: first?.source ?? null, alikeAhead: first?.alikeAhead ?? 0, members };
  const report = noiseReport(cascade, carried);
  const verdict = report.rows.some((row) => row.verdict === 'fail')
    ? 'fail'
    : report.tightest === null || report.tightest.verdict === 'undecided'
      ? null
      : 'pass';
  return answered(
    {
      ...{ station: last.station.name, count: report.count, carried, rows: report.rows },
      ...{ stations: members, distortions: report.distortions, mer: report.mer },
      ...{ worstEnd: report.worstEnd, tightest: report.tightest?.key ?? null },
    },
    textOf(report, last.station, carried.bandwidthMhz),
    verdict,
  );
}

export const noise: Verb = {
  name: 'noise',
  summary: 'noise and distortion of a station and of the cascade that it stands in',
  register(program: Command, run: RunVerb) {
    program
      .command('noise')
      .summary(noise.summary)
      .description(
        'Carrier to noise, CTB, CSO and an estimate of the MER of the last station and of all together, from the figures\n' +
          "in their notes (amplifier, source), against the limits at a subscriber's terminal. Ends with 1 when one is beyond.",
      )
      .argument('<stations...>', 'station files (JSON), from the source on; the last one is reported')
      .requiredOption('--notes <files...>', 'their notes (JSON), in the same order')
      .option('--input-sweep <file>', 'sweep of the input of the last station (CSV)')
      .option('--output-sweep <file>', 'sweep of its forward output (CSV); its design unless told')
      .option(...jsonFlag)
      .action((files: string[], options: Options, command: Command) =>
        run(command, () => act(files, options)),
      );
  },
};
