import { InvalidArgumentError } from 'commander';
import { levelIn } from '../../core/units.ts';
import { bareLevel, type LevelUnitWord, levelUnits } from '../../core/words/numbers.ts';
import { decibels } from './table.ts';

/** By the word on the command line. */
const byWord: Readonly<Record<string, LevelUnitWord>> = {
  dbmv: 'dBmV',
  dbuv: 'dBuV',
  dbm: 'dBm75',
  dbm50: 'dBm50',
  mv: 'mV',
};

/** `command.option(...unitOption)`: the text alone is said in it; JSON is dBmV, always. */
export const unitOption = [
  '--unit <dbmv|dbuv|dbm|dbm50|mv>',
  'what the text says levels in; dbm is that of 75 ohm, dbm50 of 50; JSON is always dBmV',
  (word: string): LevelUnitWord => {
    const unit = Object.hasOwn(byWord, word.toLowerCase()) ? byWord[word.toLowerCase()] : undefined;
    if (unit === undefined) throw new InvalidArgumentError('a unit is dbmv, dbuv, dbm, dbm50 or mv');
    return unit;
  },
] as const;

export type UnitOption = Readonly<{ unit?: LevelUnitWord }>;

/** A level's number in the unit of the text, with one decimal; millivolts with three digits. */
export function levelCell(levelDbmv: number, unit: LevelUnitWord = 'dBmV'): string {
  if (unit === 'mV') return bareLevel(levelDbmv, unit);
  const shown = levelIn(levelUnits[unit].unit, levelDbmv);
  return shown.ok ? decibels(shown.value) : '?';
}
