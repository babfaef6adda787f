import { type Command, InvalidArgumentError, Option } from 'commander';
import { Refused } from '../../core/bridge/refused.ts';
import { encodingNote } from '../../core/files/encoding.ts';
import { type LevelUnit, writtenLevelUnits } from '../../core/files/level-unit.ts';
import { readSweepFile, type SweepFile } from '../../core/files/read-sweep-file.ts';
import type { Told } from '../../core/files/sweep-csv.ts';
import { refuse } from '../../core/result.ts';
import { readWritten } from './read-input.ts';

/** What a person may say of a sweep's file where the file itself does not. */
export type SweepOptions = Readonly<{
  table?: number;
  levelUnit?: LevelUnit;
  frequencyUnit?: 'Hz' | 'kHz' | 'MHz' | 'GHz';
}>;

function tableNumber(text: string): number {
  const value = Number(text);
  if (!Number.isInteger(value) || value < 1)
    throw new InvalidArgumentError('give the number of a table, from 1');
  return value;
}

/** Adds those options to a verb that reads a sweep. */
export const withSweepOptions = (command: Command): Command =>
  command
    .option('--table <N>', 'which table of the file, where it holds several', tableNumber)
    .addOption(
      new Option('--level-unit <unit>', 'of levels, where the file does not say it').choices(
        writtenLevelUnits,
      ),
    )
    .addOption(
      new Option('--frequency-unit <unit>', 'of frequencies, where the file does not say it').choices([
        'Hz',
        'kHz',
        'MHz',
        'GHz',
      ]),
    );

const toldBy = ({ table, levelUnit, frequencyUnit }: SweepOptions): Told => ({
  ...(table === undefined ? {} : { table }),
  ...(levelUnit === undefined ? {} : { levelUnit }),
  ...(frequencyUnit === undefined ? {} : { frequencyUnit }),
});

/** The option that would make a refused file certain. */
function withOption(code: string, help: string): string {
  if (code === 'several-tables') return `${help} (--table N)`;
  if (code !== 'no-unit') return help;
  return `${help}, or say it with ${/frequency/.test(help) ? '--frequency-unit' : '--level-unit'}`;
}

/** Any file of levels or of a response, by one reader. Throws `Refused` with what would make it certain. */
export async function sweepIn(file: string, options: SweepOptions = {}): Promise<SweepFile> {
  const { text, encoding } = await readWritten(file);
  const read = readSweepFile(text, file, toldBy(options));
  if (!read.ok) throw new Refused({ ...read, help: withOption(read.code, read.help) });
  const note = encodingNote(encoding);
  return note === null ? read.value : { ...read.value, notes: [...read.value.notes, note] };
}

/** The same where only levels will do. */
export async function levelsIn(file: string, options: SweepOptions = {}): Promise<SweepFile['rows']> {
  const { holds, rows } = await sweepIn(file, options);
  if (holds === 'response')
    throw new Refused(refuse('not-levels', file, 'it holds a response in dB; give a sweep of levels'));
  return rows;
}
