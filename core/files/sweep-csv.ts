import type { LevelRow } from '../line/level-row.ts';
import { done, type Result, refuse } from '../result.ts';
import { ownLevelUnit } from './column-readers.ts';
import type { NotedLine } from './csv-lines.ts';
import type { DecimalSign } from './decimal-marks.ts';
import type { FrequencyUnit } from './frequency-unit.ts';
import type { Role } from './header-words.ts';
import { type LevelUnit, levelUnitOf } from './level-unit.ts';
import { chosenTables, type FoundTable, foundTable } from './pasted/choose-tables.ts';
import { saysIn50Ohm, unitsInProse } from './pasted/prose-units.ts';
import type { Table } from './pasted/table.ts';
import type { Tables } from './pasted/tables.ts';
import { readTables } from './sweep-dialect.ts';
import { rowsOfTable, type TableRows } from './table-rows.ts';

/** What a person says of a file that it does not say for certain. */
export type Told = Readonly<{
  /** Which of its tables, from 1. */
  table?: number | undefined;
  frequencyUnit?: FrequencyUnit | undefined;
  levelUnit?: LevelUnit | undefined;
}>;

/** How a file was read, for telling the person. */
export type Understood = Readonly<{
  separator: string;
  decimal: DecimalSign | null;
  frequencyUnit: string;
  levelUnit: string;
  /** By what each column was taken for: its heading. */
  columns: Readonly<Partial<Record<Role, string>>>;
  /** Every table of levels in it, also those that were not taken. */
  tables: readonly FoundTable[];
  /** What was taken from elsewhere than the columns themselves, in words. */
  notes: readonly string[];
  /** Lines of words and of other tables, which say nothing of levels. */
  rest: readonly NotedLine[];
}>;

export type ReadSweep = Readonly<{
  /** Every row of the file in its order, also those that are no reading. */
  rows: LevelRow[];
  /** The rows among them that are no reading, and why. */
  left: { line: number; reason: string }[];
  understood: Understood;
}>;

/** More tables than any page has; a channel each may well stand in a block of its own. */
const MOST_TABLES = 400;

/** What the other tables of the same text say of levels under the same heading, for each table. */
function siblingUnits(tables: readonly Table[]): (LevelUnit | null)[] {
  const own = tables.map((table) => (tables.length === 1 ? null : ownLevelUnit(table, levelUnitOf)));
  const headings = tables.map(({ columns }) => columns.level?.header.toLowerCase());
  return tables.map((_, i) => {
    const units = new Set(own.filter((unit, k) => k !== i && unit !== null && headings[k] === headings[i]));
    return units.size === 1 ? ([...units][0] ?? null) : null;
  });
}

/** A refusal may quote a cell, and a quoted cell may have lines; what a person reads has one. */
const onOneLine = <T>(result: Result<T>): Result<T> =>
  result.ok
    ? result
    : { ...result, where: result.where.replace(/\s+/g, ' '), help: result.help.replace(/\s+/g, ' ') };

const strayRefusal = ({ line, text }: NotedLine, fileName: string) =>
  refuse(
    'not-understood',
    `${fileName}, line ${line}`,
    `"${text.slice(0, 60)}" holds levels and belongs to no table; name its columns, or say which table to take`,
  );

/**
 * The lines of words that may speak for a table: its own titles, and the comments above it. An impedance is the
 * instrument's, wherever in the text it stands.
 */
function proseFor(table: Table, { comments, rest }: Tables) {
  const prose = unitsInProse([...comments.filter(({ line }) => line <= table.header.line), ...table.titles]);
  return prose.isIn50Ohm ? prose : { ...prose, isIn50Ohm: saysIn50Ohm([...comments, ...rest]) };
}

/** What is said below is said of the one table above it. */
const footFor = ({ tables, footers }: Tables) => unitsInProse(tables.length === 1 ? footers : []);

/** The tables of a text, what each is, and its rows or why it can't be read. */
export type SweepTables = Readonly<{
  all: Tables;
  read: readonly Result<TableRows>[];
  found: readonly FoundTable[];
}>;

/**
 * The tables of a text, each read by itself.
 * @param text      as decoded
 * @param fileName  named in every refusal
 * @param told      what the person says of it
 * @returns  what each table is and its rows or why it can't be read; or a refusal where no table is certain
 * @source   contract, section 1
 */
export function tablesOfSweep(text: string, fileName: string, told: Told = {}): Result<SweepTables> {
  const all = readTables(text, fileName, ['frequency', 'level']);
  if (!all.ok) return onOneLine(all);
  const { tables } = all.value;
  if (tables.length > MOST_TABLES)
    return refuse(
      'several-tables',
      `${fileName}, line ${tables[MOST_TABLES]?.header.line ?? 1}`,
      `the file holds ${tables.length} tables; keep the one that counts`,
    );
  const siblings = siblingUnits(tables);
  const read = tables.map((table, i) =>
    onOneLine(
      rowsOfTable(
        table,
        {
          prose: proseFor(table, all.value),
          foot: footFor(all.value),
          told,
          sibling: siblings[i] ?? null,
        },
        fileName,
      ),
    ),
  );
  const found = tables.map((table, i) => foundTable(table, i + 1, read[i] ?? null));
  return done({ all: all.value, read, found });
}

/**
 * A sweep's text to rows: the project's own CSV, and what people paste, in every layout, separator, decimal sign,
 * heading and unit that can be told for certain.
 * @param text      as decoded
 * @param fileName  named in every refusal
 * @param told      what the person says of it, where the text itself does not
 * @returns  every row with MHz and dBmV at 75 ohm; rows without a single frequency or without a level keep null there
 *           and a reason. Refused with file, line, column and what would help: what is no text, has no header, no rows,
 *           a unit or a decimal sign that is not certain, words where a number is due, or two tables that are not
 *           plainly one sweep. Nothing is half imported.
 * @source   contract, section 1
 */
export function readSweepCsv(text: string, fileName: string, told: Told = {}): Result<ReadSweep> {
  const tables = tablesOfSweep(text, fileName, told);
  return tables.ok ? sweepOfTables(tables.value, fileName, told) : tables;
}

/**
 * The sweep that the tables of a text make.
 * @param tables    as read
 * @param fileName  named in every refusal
 * @param told      as for `readSweepCsv`
 * @returns  what `readSweepCsv` does of the same text
 * @source   contract, section 1
 */
export function sweepOfTables(
  { all, read, found }: SweepTables,
  fileName: string,
  told: Told = {},
): Result<ReadSweep> {
  const chosen = chosenTables(found, read, told.table ?? null, fileName);
  if (!chosen.ok) return onOneLine(chosen);
  if (told.table === undefined && all.stray !== null) return onOneLine(strayRefusal(all.stray, fileName));
  const [ranges] = chosen.value.read.map(({ onlyRanges }) => onlyRanges);
  if (ranges != null && chosen.value.read.every(({ onlyRanges }) => onlyRanges !== null))
    return onOneLine(ranges);
  const rows: LevelRow[] = [];
  const left: { line: number; reason: string }[] = [];
  const notes: string[] = [];
  for (const { rows: some, notes: said } of chosen.value.read) {
    for (const row of some) {
      rows.push(row);
      const { line = 0, reason, unlocked = false } = row;
      if (reason !== undefined || unlocked) left.push({ line, reason: reason ?? 'not locked' });
    }
    for (const note of said) if (!notes.includes(note)) notes.push(note);
  }
  if (chosen.value.read.length > 1) notes.unshift(`${chosen.value.read.length} tables were joined`);
  if (chosen.value.note !== null) notes.unshift(chosen.value.note);
  const [first] = chosen.value.read;
  const columns = all.tables[(chosen.value.numbers[0] ?? 1) - 1]?.columns ?? {};
  const named = Object.entries(columns).map(([role, column]) => [role, column.header]);
  return done({
    rows,
    left,
    understood: {
      separator: all.separator,
      decimal: first?.decimal ?? null,
      frequencyUnit: first?.frequencyUnit ?? '',
      levelUnit: first?.levelUnit ?? '',
      columns: Object.fromEntries(named),
      tables: found.map((table) => ({ ...table, taken: chosen.value.numbers.includes(table.number) })),
      notes,
      rest: all.rest,
    },
  });
}
