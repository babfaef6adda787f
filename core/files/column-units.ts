import { done, type Result, refuse } from '../result.ts';
import {
  type FrequencyUnit,
  frequencyUnitOf,
  mhzFromWritten,
  TOP_OF_ALL_MHZ,
  unitOfBare,
} from './frequency-unit.ts';
import { partsIn } from './header-words.ts';
import { dbmvFromWritten, isVoltage, type LevelUnit, levelUnitOf, levelUnitWords } from './level-unit.ts';
import type { Column } from './pasted/table.ts';
import { numberWritten } from './written-number.ts';

/** A number of a column as written, with the unit behind it if there is one, and where it stands. */
export type Cell = Readonly<{ digits: string; unit: string; where: string }>;

/** How a column's numbers become MHz or dBmV. `unit` is what they are written in, for telling the person. */
export type Reader<Value extends number | null = number | null> = Readonly<{
  unit: FrequencyUnit | LevelUnit | 'in the cells';
  /** Null for a voltage of 0 or less, which is no level. */
  read: (cell: Cell) => Result<Value, 'no-unit' | 'wrong-unit' | 'out-of-range'>;
  /** The same of what most cells are; null for every other, whatever `read` says of it. */
  quick: (digits: string, unit: string) => number | null;
}>;

/** No level of a line, and no sum of such, comes near this. */
const BEYOND_ANY_DBMV = 10_000;

const beyond = (cell: Cell, help: string) => refuse('out-of-range', cell.where, help);

function frequencyOf(cell: Cell, unit: FrequencyUnit): Result<number, 'out-of-range'> {
  const written = numberWritten(cell.digits);
  const frequencyMhz = written === null ? Number.NaN : mhzFromWritten(written, unit);
  if (frequencyMhz > 0 && frequencyMhz <= TOP_OF_ALL_MHZ) return done(frequencyMhz);
  return beyond(
    cell,
    `${cell.digits} ${unit} is no frequency from 0 to ${TOP_OF_ALL_MHZ} MHz; check the unit`,
  );
}

/**
 * Decides the unit of a frequency column: its header's, its cells', or the only one in which all its bare numbers lie
 * between 1 and 3000 MHz. Bare numbers beside cells with units are certain only as Hz.
 * @param column      the column
 * @param cells       its numbers but for zeros
 * @param headerWhere where its header stands
 * @returns  the reader, or a refusal that says what would make the unit certain
 * @source   contract, section 1
 */
export function frequencyReader(
  column: Column,
  cells: readonly Cell[],
  headerWhere: string,
): Result<Reader<number>, 'no-unit'> {
  const own = column.word.frequencyUnit;
  const bare = cells.filter((cell) => cell.unit === '');
  const fitting = own ?? unitOfBare(bare.map((c) => numberWritten(c.digits) ?? 0));
  // Beside cells with units, a bare number is certain only where no larger unit could make a channel of it.
  const told = own ?? (bare.length === cells.length || fitting === 'Hz' ? fitting : null);
  if (told === null && bare.length > 0) {
    const where = bare.length === cells.length ? headerWhere : (bare[0]?.where ?? headerWhere);
    return refuse(
      'no-unit',
      where,
      'the unit of frequency is not certain; write "frequency_mhz" in the header',
    );
  }
  const only = told ?? 'MHz';
  return done({
    unit: told ?? 'in the cells',
    quick: (digits, written) => {
      const unit = written === '' ? only : frequencyUnitOf(written);
      if (unit === null || (own !== null && own !== unit)) return null;
      const frequencyMhz = mhzFromWritten(numberWritten(digits) ?? Number.NaN, unit);
      return frequencyMhz > 0 && frequencyMhz <= TOP_OF_ALL_MHZ ? frequencyMhz : null;
    },
    read: (cell) => {
      if (cell.unit === '') return frequencyOf(cell, told ?? 'MHz');
      const unit = frequencyUnitOf(cell.unit);
      if (unit === null || (own !== null && own !== unit))
        return refuse(
          'wrong-unit',
          cell.where,
          `"${cell.digits} ${cell.unit}" is not in ${own ?? 'Hz, kHz, MHz or GHz'}; write frequencies in one unit`,
        );
      return frequencyOf(cell, unit);
    },
  });
}

/**
 * Decides the unit of a level column: its header's or its cells', never by the size of its numbers. Tenths and
 * hundredths of it are counted where the header or the cell says so.
 * @param column      the column
 * @param cells       its numbers
 * @param headerWhere where its header stands
 * @returns  the reader, or a refusal that says what would make the unit certain
 * @source   contract, section 1
 */
export function levelReader(
  column: Column,
  cells: readonly Cell[],
  headerWhere: string,
): Result<Reader, 'no-unit' | 'wrong-unit'> {
  const own = column.word.levelUnit;
  if (column.word.impedanceOhm === 50 && own !== 'dBm50')
    return refuse(
      'wrong-unit',
      headerWhere,
      'levels in 50 ohm are not those of a 75 ohm line; give them in dBmV, or write "dBm 50 ohm" if they are powers',
    );
  const split = column.word.parts === 1 ? undefined : cells.find(({ digits }) => /\.\d*[1-9]/.test(digits));
  if (split !== undefined)
    return refuse(
      'wrong-unit',
      split.where,
      `${split.digits} under "${column.header}" has a fraction, and tenths are counted whole; write the unit that it is in`,
    );
  const bare = cells.find((cell) => cell.unit === '');
  if (own === null && (bare !== undefined || cells.length === 0)) {
    const help = column.word.bareDb
      ? 'dB is a gain or a loss, not a level; write "level_dbmv" in the header if these are dBmV'
      : 'the unit of level is not certain; write "level_dbmv" in the header, or dBmV behind every level';
    return refuse(
      'no-unit',
      cells.every((cell) => cell.unit === '') ? headerWhere : (bare?.where ?? headerWhere),
      help,
    );
  }
  // A heading of dBm in 50 ohm leaves its cells the short word.
  const unitIn = (cellUnit: string): LevelUnit | null => {
    const unit = cellUnit === '' ? own : levelUnitOf(cellUnit);
    return own === 'dBm50' && unit === 'dBm' && !cellUnit.includes('75') ? own : unit;
  };
  return done({
    unit: own ?? 'in the cells',
    quick: (digits, written) => {
      // A longer unit may count tenths.
      if (written.length > 4 || column.word.parts !== 1) return null;
      const unit = unitIn(written);
      if (unit === null || isVoltage(unit) || (own !== null && own !== unit)) return null;
      const value = numberWritten(digits);
      return value === null || Math.abs(value) > BEYOND_ANY_DBMV ? null : dbmvFromWritten(value, unit);
    },
    read: (cell) => {
      const unit = unitIn(cell.unit);
      if (unit === null || (own !== null && own !== unit))
        return refuse(
          'wrong-unit',
          cell.where,
          `"${cell.digits} ${cell.unit}" is not in ${own === null ? 'dBmV, dB\u00B5V, dBm, mV or \u00B5V' : levelUnitWords[own]}; write levels in one unit`,
        );
      const written = numberWritten(cell.digits);
      const noLevel = () => beyond(cell, `${cell.digits} ${levelUnitWords[unit]} is no level`);
      // A voltage's number may be large, and its level is not.
      if (written === null || (!isVoltage(unit) && Math.abs(written) > BEYOND_ANY_DBMV)) return noLevel();
      const parts = cell.unit.length > 4 ? partsIn(cell.unit) : 1;
      const levelDbmv = dbmvFromWritten(written / (parts === 1 ? column.word.parts : parts), unit);
      return levelDbmv === null || Math.abs(levelDbmv) <= BEYOND_ANY_DBMV ? done(levelDbmv) : noLevel();
    },
  });
}
