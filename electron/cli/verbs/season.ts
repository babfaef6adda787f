import type { Command } from 'commander';
import { readStation } from '../../../core/files/station.ts';
import { SEASON_DEFAULTS, type Season, season as seasonOf } from '../../../core/season/rows.ts';
import { levelWord } from '../../../core/words/numbers.ts';
import { levelCell, type UnitOption, unitOption } from '../level-option.ts';
import { numberOption } from '../number-option.ts';
import { answered, type Outcome, refused } from '../outcome.ts';
import { readInput } from '../read-input.ts';
import { aligned, signed } from '../table.ts';
import { type TemperatureOption, temperatureCell, temperatureOption } from '../temperature-option.ts';
import { jsonFlag, type RunVerb, type Verb } from '../verb.ts';

type Options = UnitOption & TemperatureOption & Readonly<{ fromC: number; toC: number; stepC: number }>;

/** In words, where the control ends on one side. */
const endOf = (
  side: string,
  firstC: number | null,
  exactC: number | null,
  unit: Options['unitTemp'],
): string => {
  if (exactC === null) return `${side}: never at its limit`;
  return `${side}: at its limit from ${temperatureCell(exactC, unit)}${firstC === null ? ', beyond this table' : ''}`;
};

/** The season as a person reads it. */
function textOf({ rows, ...ends }: Season, stationName: string, options: Options): string {
  const { unit = 'dBmV', unitTemp } = options;
  return [
    `${stationName}: output over the cable's temperature, control ${rows[0]?.mode ?? ''}`,
    ...aligned([
      ['Temperature', 'Low', 'High', 'Control', ''],
      ...rows.map((row) => [
        temperatureCell(row.ambientC, unitTemp),
        `${levelCell(row.lowDbmv, unit)} ${levelWord(unit)}`,
        `${levelCell(row.highDbmv, unit)} ${levelWord(unit)}`,
        `${signed(row.controlDb)} dB`,
        row.atLimit ? 'at its limit' : '',
      ]),
    ]),
    endOf('Hot', ends.firstLimitHotC, ends.exactLimitHotC, unitTemp),
    endOf('Cold', ends.firstLimitColdC, ends.exactLimitColdC, unitTemp),
  ].join('\n');
}

async function act(file: string, options: Options): Promise<Outcome> {
  const station = readStation(await readInput(file), file);
  if (!station.ok) return refused(station);
  const { fromC, toC, stepC } = options;
  const table = seasonOf(station.value, { fromC, toC, stepC });
  if (!table.ok)
    return refused(table.code === 'bad-range' ? table : { ...table, where: `${file}, ${table.where}` });
  return answered({ ...table.value }, textOf(table.value, station.value.name, options));
}

const temperature = numberOption('a temperature in degrees C', -500);

export const season: Verb = {
  name: 'season',
  summary: 'level and gain control of a station from the coldest to the hottest day',
  register(program: Command, run: RunVerb) {
    program
      .command('season')
      .summary(season.summary)
      .description(
        "A station's output at its design's low and high frequency (dBmV) and where its gain control stands (dB), from\n" +
          'the coldest to the hottest cable. firstLimitHotC and firstLimitColdC are the first rows at the limit going out\n' +
          'from where it was set; exactLimitHotC and exactLimitColdC are where exactly it reaches it.',
      )
      .argument('<station>', 'station file (JSON) with "span" and "gainControl"')
      .option('--from-c <C>', 'coldest, degrees C', temperature, SEASON_DEFAULTS.fromC)
      .option('--to-c <C>', 'hottest, degrees C', temperature, SEASON_DEFAULTS.toC)
      .option(
        '--step-c <C>',
        'from row to row',
        numberOption('a step in degrees C', 0),
        SEASON_DEFAULTS.stepC,
      )
      .option(...unitOption)
      .option(...temperatureOption)
      .option(...jsonFlag)
      .action((file: string, options: Options, command: Command) => run(command, () => act(file, options)));
  },
};
