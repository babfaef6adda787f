import { done, type Refusal, type Result, refuse } from '../../result.ts';
import type { CsvRow } from '../csv-lines.ts';
import { plainDigits } from '../decimal-marks.ts';
import { dbmvFromWritten, isVoltage, type LevelUnit, levelUnitOf, levelUnitWords } from '../level-unit.ts';
import { numberWritten, writtenIn } from '../written-number.ts';
import { placeOf, type Table } from './table.ts';

/** Two roundings to a tenth, and 48.75 dB said as 48.8: the same level in two units differs by no more. */
const SAME_WITHIN_DB = 0.16;

/** A cell that is longer is no level, however it is parted. */
const LONGEST_CELL = 60;

type Given = Readonly<{ digits: string; unit: LevelUnit }>;

const number = String.raw`[+-]?\d+(?:[.,]\d+)?`;
const unit = String.raw`(?:db(?:m|[m\u00B5\u03BCu]v)|[m\u00B5\u03BCu]v)`;
const pair = new RegExp(
  `^(${number})\\s*(${unit})?\\s*(?:[/|;,]\\s+|\\s*/\\s*|\\(\\s*)(${number})\\s*(${unit})?\\s*\\)?$`,
  'i',
);
const parts = /[/|;,(]/;
const NO_PAIR = done(null);
const mayBePair = /\d\s*(?:db\S*|[m\u00B5\u03BCu]v)?\s*[/|;,(]\s*[+-]?\d/i;

const dbmvOf = ({ digits, unit: written }: Given): number | null => {
  const value = numberWritten(plainDigits(digits, { decimal: null, thousands: null }));
  return value === null ? null : dbmvFromWritten(value, written);
};

/** How far the rounding of its last digit may take a voltage, in dB; nothing more for decibels. */
function roundingDb({ digits, unit: written }: Given): number {
  const plain = plainDigits(digits, { decimal: null, thousands: null });
  const value = numberWritten(plain) ?? 0;
  if (!isVoltage(written) || value <= 0) return 0;
  const half = 0.5 * 10 ** -(plain.split('.')[1]?.length ?? 0);
  return 20 * Math.log10(1 + half / value);
}

const areSame = (first: Given, second: Given): boolean => {
  const [a, b] = [dbmvOf(first), dbmvOf(second)];
  const withinDb = SAME_WITHIN_DB + roundingDb(first) + roundingDb(second);
  return a !== null && b !== null && Math.abs(a - b) <= withinDb;
};

/** The two units that a heading names, in their order. */
function unitsIn(heading: string): LevelUnit[] {
  return [
    ...heading.matchAll(/db(?:m(?!v)|[m\u00B5\u03BCu]v)|(?<![a-z])[m\u00B5\u03BCu]v(?![a-z])/gi),
  ].flatMap(([word]) => levelUnitOf(word) ?? []);
}

/** One level told twice: in dBmV where that is one of the two. Null where they are not the same level. */
function oneOf(first: Given, second: Given): Given | null {
  if (!areSame(first, second)) return null;
  return second.unit === 'dBmV' ? second : first;
}

type Split = Result<string | null, 'two-levels'>;

/** A cell with two levels as one with its unit; null where it is no such cell. */
function splitCell(cell: string, heading: readonly LevelUnit[], where: string): Split {
  if (!parts.test(cell) || cell.length > LONGEST_CELL || !mayBePair.test(cell)) return NO_PAIR;
  // The impedance behind a unit, dBm/50, is no second level.
  const whole = writtenIn(cell);
  if (whole.kind === 'number' && levelUnitOf(whole.unit) !== null) return NO_PAIR;
  const minus = cell.replace(/\u2212/g, '-').replace(/[\u00A0\u202F]/g, ' ');
  const match = pair.exec(minus);
  if (match === null) return done(null);
  const [, firstDigits = '', firstUnit = '', secondDigits = '', secondUnit = ''] = match;
  const [one, other] = [levelUnitOf(firstUnit), levelUnitOf(secondUnit)];
  const named = heading.length === 2 ? heading : [];
  const [firstIs, secondIs] = [one ?? named[0] ?? null, other ?? named[1] ?? null];
  const shown = cell.slice(0, 40);
  if (firstIs === null || secondIs === null || firstIs === secondIs)
    return refuse(
      'two-levels',
      where,
      `"${shown}" is two levels; keep one a cell, or name both units in the heading, as in "Level (dBmV / dBuV)"`,
    );
  const kept = oneOf({ digits: firstDigits, unit: firstIs }, { digits: secondDigits, unit: secondIs });
  if (kept === null)
    return refuse(
      'two-levels',
      where,
      `"${shown}" is not the same level in ${levelUnitWords[firstIs]} and ${levelUnitWords[secondIs]}; keep the one that is right`,
    );
  return done(`${kept.digits} ${kept.unit}`);
}

/** Where the second column of levels says something else than the first. */
function contradiction(table: Table, row: CsvRow, fileName: string): Refusal<'two-levels'> | null {
  const { level, twin } = table.columns;
  if (level?.word.levelUnit == null || twin?.word.levelUnit == null) return null;
  const [cell = '', also = ''] = [row.cells[level.index], row.cells[twin.index]];
  const [one, other] = [writtenIn(cell), writtenIn(also)];
  if (one.kind === 'blank' && other.kind === 'number' && Number(other.digits) !== 0)
    return refuse(
      'two-levels',
      placeOf(table, row, 'level', fileName),
      `nothing stands under "${level.header}" and ${also.slice(0, 20)} under "${twin.header}"; give every level in one unit`,
    );
  if (one.kind !== 'number' || other.kind !== 'number') return null;
  const first = { digits: one.digits, unit: levelUnitOf(one.unit) ?? level.word.levelUnit };
  const second = { digits: other.digits, unit: levelUnitOf(other.unit) ?? twin.word.levelUnit };
  // A slot that is not locked says 0 in whatever unit, and a voltage too small to be written says it as well.
  const isNone = dbmvOf(first) === null || dbmvOf(second) === null || Number(one.digits) === 0;
  if (isNone || areSame(first, second)) return null;
  return refuse(
    'two-levels',
    placeOf(table, row, 'level', fileName),
    `${cell.slice(0, 20)} under "${level.header}" and ${also.slice(0, 20)} under "${twin.header}" are not the same level; keep the one that counts`,
  );
}

/**
 * A table with one level a row, where it gives each in two units: "8.3 / 68.3" in a cell, or two columns.
 * @param table     its columns certain
 * @param fileName  named in a refusal
 * @returns  the table with one level and its unit in each such cell; or a refusal of two levels that are not the same
 *           one, or of which nothing says the units
 * @source   contract, section 1: nothing is guessed silently
 */
export function withOneLevel(table: Table, fileName: string): Result<Table, 'two-levels'> {
  const { level, twin } = table.columns;
  if (level === undefined) return done(table);
  if (twin !== undefined) {
    for (const row of table.body) {
      const refusal = contradiction(table, row, fileName);
      if (refusal !== null) return refusal;
    }
  }
  const heading = unitsIn(level.header);
  const body: CsvRow[] = [];
  let isSplit = false;
  for (const row of table.body) {
    const split = splitCell(row.cells[level.index] ?? '', heading, placeOf(table, row, 'level', fileName));
    if (!split.ok) return split;
    if (split.value === null) body.push(row);
    else {
      const { value } = split;
      isSplit = true;
      body.push({ ...row, cells: row.cells.map((cell, i) => (i === level.index ? value : cell)) });
    }
  }
  return done(isSplit ? { ...table, body } : table);
}
