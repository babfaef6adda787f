import { InvalidArgumentError } from 'commander';
import { levelIn } from '../../core/units.ts';
import { type LevelUnitWord, levelUnits } from '../../core/words/numbers.ts';
import { decibels } from './table.ts';

/** By the word on the command line. Millivolts are no column of decibels, so they are not among them. */
const byWord: Readonly<Record<string, LevelUnitWord>> = { dbmv: 'dBmV', dbuv: 'dBuV', dbm: 'dBm75' };

/** `command.option(...unitOption)`: the text alone is said in it; JSON is dBmV, always. */
export const unitOption = [
  '--unit <dbmv|dbuv|dbm>',
  'what the text says levels in; dbm is that of 75 ohm; JSON is always dBmV',
  (word: string): LevelUnitWord => {
    const unit = Object.hasOwn(byWord, word.toLowerCase()) ? byWord[word.toLowerCase()] : undefined;
    if (unit === undefined) throw new InvalidArgumentError('a unit is dbmv, dbuv or dbm');
    return unit;
  },
] as const;

export type UnitOption = Readonly<{ unit?: LevelUnitWord }>;

/** A level's number in the unit of the text, with one decimal. */
export function levelCell(levelDbmv: number, unit: LevelUnitWord = 'dBmV'): string {
  const shown = levelIn(levelUnits[unit].unit, levelDbmv);
  return shown.ok ? decibels(shown.value) : '?';
}
