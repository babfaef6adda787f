import type { Command } from 'commander';
import { readStation } from '../../../core/files/station.ts';
import { measuredCurve, withCurve } from '../../../core/files/touchstone/measured-curve.ts';
import { readPlugInResponse } from '../../../core/files/touchstone/response.ts';
import { numberOption } from '../number-option.ts';
import { answered, type Outcome, refused } from '../outcome.ts';
import { readInput } from '../read-input.ts';
import { jsonFlag, type RunVerb, type Verb } from '../verb.ts';
import { writeOutput } from '../write-output.ts';

type Options = Readonly<{ station: string; position: string; value: number; out: string }>;

async function act(file: string, options: Options): Promise<Outcome> {
  const station = readStation(await readInput(options.station), options.station);
  if (!station.ok) return refused(station);
  const response = readPlugInResponse(await readInput(file), file);
  if (!response.ok) return refused(response);
  const curve = measuredCurve(response.value, file);
  if (!curve.ok) return refused(curve);
  const better = withCurve(station.value, options.position, options.value, curve.value);
  if (!better.ok) return refused({ ...better, where: `${options.station}, ${better.where}` });
  await writeOutput(options.out, `${JSON.stringify(better.value, null, 2)}\n`);
  const count = curve.value.length;
  return answered(
    { file: options.out, position: options.position, valueDb: options.value, count },
    [
      `${options.out}: "${options.position}" ${options.value} now has its measured loss, ${count} points`,
      ...response.value.notes.map((note) => `Note: ${note}`),
    ].join('\n'),
  );
}

export const curve: Verb = {
  name: 'curve',
  summary: 'puts the measured loss of a plug-in into a station file',
  register(program: Command, run: RunVerb) {
    program
      .command('curve')
      .summary(curve.summary)
      .description(
        'Takes S21 of a plug-in as the loss of one value of a position, in place of the formula. What was measured in\n' +
          'another impedance is renormalised to 75 ohm with all four S parameters.\n' +
          'The station is written to a new file; open that one in the workbench, and it becomes the next revision.',
      )
      .argument('<file>', 'measurement as Touchstone .s2p, versions 1 and 2.0')
      .requiredOption('--station <file>', 'station as JSON')
      .requiredOption('--position <name>', 'where the plug-in goes')
      .requiredOption('--value <dB>', 'the value on its label', numberOption('a value in dB', 0))
      .requiredOption('--out <file>', 'the new station file; nothing is written over')
      .option(...jsonFlag)
      .action((file: string, options: Options, command: Command) => run(command, () => act(file, options)));
  },
};
