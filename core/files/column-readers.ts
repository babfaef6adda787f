import type { SignalKind } from '../line/level-row.ts';
import { done, type Result, refuse } from '../result.ts';
import { type Cell, frequencyReader, levelReader, type Reader } from './column-units.ts';
import { type Marks, marksOf, plainDigits } from './decimal-marks.ts';
import { TOP_OF_ALL_MHZ } from './frequency-unit.ts';
import type { Parts, Role } from './header-words.ts';
import { isVoltage, levelUnitOf, levelUnitWords } from './level-unit.ts';
import type { ProseUnits } from './pasted/prose-units.ts';
import type { Column, Table } from './pasted/table.ts';
import { cellsOf, type TableCells } from './table-cells.ts';
import { numberWritten } from './written-number.ts';

/** Units that stand outside of the table, each with where it was found. */
export type UnitsBeside = Readonly<{
  /** Above it. */
  prose: ProseUnits;
  /** Below it. */
  foot: ProseUnits;
  told: Readonly<{
    frequencyUnit?: ProseUnits['frequency'] | undefined;
    levelUnit?: ProseUnits['level'] | undefined;
  }>;
  /** The unit that another table of the same text gives a level under the same heading. */
  sibling: ProseUnits['level'];
}>;

/** A column's reader with the marks of its numbers. */
export type Marked = Readonly<{ reader: Reader; marks: Marks }>;

/** What a row needs besides its own cells. */
export type Beside = Readonly<{ merMarks: Marks; merParts: Parts; kind: SignalKind | null }>;

/** The column with the unit that stands beside the table, where neither it nor its cells carry one. */
function united(column: Column, cells: readonly Cell[], unit: Partial<Column['word']>): Column {
  const bare = cells.some((cell) => cell.unit === '');
  const { frequencyUnit, levelUnit } = column.word;
  return bare && frequencyUnit === null && levelUnit === null
    ? { ...column, word: { ...column.word, ...unit } }
    : column;
}

export type Readers = Readonly<{
  frequency: Marked;
  level: Marked;
  beside: Beside;
  notes: string[];
  parts: Parts;
}>;

/**
 * How each column's numbers are written and what they are in, all of it certain.
 * @param table   its columns certain
 * @param cells   of it
 * @param beside  units that stand outside of it
 * @returns  the readers of frequency and level, and what was taken from beside; or a refusal with file, line and column
 * @throws   RangeError for a table without a frequency or a level, which no caller may give
 * @source   contract, section 1
 */
export function readersOf(
  table: Table,
  cells: TableCells,
  { prose, foot, told, sibling }: UnitsBeside,
): Result<Readers> {
  const { columns, separator, header } = table;
  if (columns.frequency === undefined || columns.level === undefined)
    throw new RangeError('a table without the columns that were needed');
  const alive = table.body.filter((row) => !cells.isDead(row));
  const notRange = (cell: Cell) => numberWritten(cell.digits) !== 0;
  const frequencies = cells.numbers('frequency').filter(notRange);
  const levels = cells.numbers('level', alive.length === 0 ? table.body : alive);
  const mers = cells.numbers('mer');
  const frequencyColumn = united(columns.frequency, frequencies, {
    frequencyUnit: told.frequencyUnit ?? prose.frequency ?? foot.frequency,
  });
  const levelUnit = told.levelUnit ?? sibling ?? prose.level ?? foot.level;
  const own = columns.level.word.levelUnit;
  if (own !== null && foot.level !== null && own !== foot.level)
    return refuse(
      'wrong-unit',
      cells.where(header, 'level'),
      `the heading says ${levelUnitWords[own]} and the line below the table ${levelUnitWords[foot.level]}; keep the one that is right`,
    );
  const unitedLevel = united(columns.level, levels, { levelUnit });
  // What prose says of tenths counts only where the heading says nothing of it.
  const parts: Parts = unitedLevel.word.parts === 1 ? prose.parts : unitedLevel.word.parts;
  const levelColumn = { ...unitedLevel, word: { ...unitedLevel.word, parts } };

  const inMhz =
    frequencyColumn.word.frequencyUnit === 'MHz' || frequencies.every(({ unit }) => /^mhz$/i.test(unit));
  const tooLarge = { isTooLarge: (whole: number) => inMhz && whole > TOP_OF_ALL_MHZ };
  const units = new Set(
    levels.map(({ unit }) => (unit === '' ? levelColumn.word.levelUnit : levelUnitOf(unit))),
  );
  const isOpen = columns.level.word.impedanceOhm === null && levels.every(({ unit }) => !unit.includes('75'));
  if (units.has('dBm') && isOpen && told.levelUnit === undefined && (prose.isIn50Ohm || foot.isIn50Ohm))
    return refuse(
      'wrong-unit',
      cells.where(header, 'level'),
      'a line beside the table says 50 ohm, and dBm alone is taken for 75 ohm; write "dBm 50 ohm" or "dBm 75 ohm" in the heading',
    );
  const isOfVoltages = [...units].some(isVoltage);
  // Thousands of microvolts are an everyday level.
  const large = { isTooLarge: (whole: number) => parts === 1 && Math.abs(whole) >= 1000 };
  const largeLevel = isOfVoltages ? {} : large;
  // Each column by itself, then those that are in doubt by what the others are certain of.
  const alone = [
    marksOf(frequencies, separator, tooLarge),
    marksOf(levels, separator, largeLevel),
    marksOf(mers, separator, large),
  ];
  const elsewhere = alone.flatMap((marks) =>
    marks.ok && marks.value.decimal !== null ? [marks.value.decimal] : [],
  );
  const sure = elsewhere.every((sign) => sign === elsewhere[0]) ? (elsewhere[0] ?? null) : null;
  const frequencyMarks = marksOf(frequencies, separator, { ...tooLarge, elsewhere: sure });
  if (!frequencyMarks.ok) return frequencyMarks;
  const levelMarks = marksOf(levels, separator, { ...largeLevel, elsewhere: sure });
  if (!levelMarks.ok) return levelMarks;
  const merMarks = marksOf(mers, separator, { ...large, elsewhere: sure });
  if (!merMarks.ok) return merMarks;

  const plain = (all: readonly Cell[], marks: Marks) =>
    all.map((cell) => ({ ...cell, digits: plainDigits(cell.digits, marks) }));
  const frequency = frequencyReader(
    frequencyColumn,
    plain(frequencies, frequencyMarks.value),
    cells.where(header, 'frequency'),
  );
  if (!frequency.ok) return frequency;
  const level = levelReader(levelColumn, plain(levels, levelMarks.value), cells.where(header, 'level'));
  if (!level.ok) return level;
  const from = (what: string, unit: string, above: unknown, other: unknown = null) =>
    `the unit of ${what}, ${unit}, stands ${other !== null ? 'in another table under the same heading' : above !== null ? 'in a line above the table' : 'in a line below the table'}`;
  const taken = (told_: unknown) => told_ === undefined;
  const frequencyUnit = prose.frequency ?? foot.frequency;
  return done({
    frequency: { reader: frequency.value, marks: frequencyMarks.value },
    level: { reader: level.value, marks: levelMarks.value },
    beside: {
      merMarks: merMarks.value,
      merParts: columns.mer?.word.parts ?? 1,
      kind: /ofdm/i.test(table.titles.at(-1)?.text ?? '') ? 'ofdm' : null,
    },
    notes: [
      ...(frequencyColumn !== columns.frequency && taken(told.frequencyUnit) && frequencyUnit !== null
        ? [from('frequency', frequencyUnit, prose.frequency)]
        : []),
      ...(unitedLevel !== columns.level && taken(told.levelUnit) && levelUnit !== null
        ? [from('level', levelUnitWords[levelUnit], prose.level, sibling)]
        : []),
      ...(isOfVoltages ? ['voltages were taken as root mean square in 75 ohm, where 1 mV is 0 dBmV'] : []),
      ...(units.has('dBm50')
        ? [
            'dBm at 50 ohm was taken for the voltage that it has there; the loss of a matching pad is not in it',
          ]
        : []),
    ],
    parts,
  });
}

/**
 * The unit that every level of a table carries in its cells or its heading, for another table under the same heading.
 * @returns  null where it carries none, or several
 * @source   contract, section 1
 */
export function ownLevelUnit(
  table: Table,
  unitOf: (written: string) => ProseUnits['level'],
): ProseUnits['level'] {
  if (table.columns.level?.word.levelUnit != null) return table.columns.level.word.levelUnit;
  const role: Role = 'level';
  const units = new Set(
    cellsOf(table, '')
      .numbers(role)
      .map(({ unit }) => unitOf(unit)),
  );
  return units.size === 1 ? ([...units][0] ?? null) : null;
}
