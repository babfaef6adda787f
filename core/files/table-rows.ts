import type { LevelRow, SignalKind } from '../line/level-row.ts';
import { done, type Refusal, type Result, refuse } from '../result.ts';
import { type Beside, type Marked, readersOf, type UnitsBeside } from './column-readers.ts';
import type { CsvRow } from './csv-lines.ts';
import { type DecimalSign, plainDigits } from './decimal-marks.ts';
import { type Parts, partsIn, type Role } from './header-words.ts';
import { saysNotLocked } from './lock-words.ts';
import { withOneLevel } from './pasted/one-level.ts';
import { sentRows } from './pasted/row-directions.ts';
import { secondLevel } from './pasted/second-level.ts';
import { isSummary } from './pasted/summary-row.ts';
import type { Table } from './pasted/table.ts';
import { kindOf, kindOfModulation } from './signal-kind.ts';
import { cellsOf, lockRefusal, type TableCells } from './table-cells.ts';
import { textOfCell } from './text-cell.ts';
import { unitDoubt } from './unit-doubt.ts';
import { numberWritten, writtenIn } from './written-number.ts';

/** One table's rows in its order, and how they were read. */
export type TableRows = Readonly<{
  rows: readonly LevelRow[];
  decimal: DecimalSign | null;
  frequencyUnit: string;
  levelUnit: string;
  parts: Parts;
  /** What was taken from elsewhere than the table's own headings and cells, in words. */
  notes: readonly string[];
  /** Why it gives no reading where every row names a range of frequencies; null where any names one. */
  onlyRanges: Refusal<'no-frequency'> | null;
}>;

const range =
  /^\d+(?:[.,]\d+)?\s*(?:[kmg]?hz)?\s*(?:-|\u2013|\u2014|~|\/|\.{2,3}|\bto\b|\bbis\b)\s*\d+(?:[.,]\d+)?\s*(?:[kmg]?hz)?(?:\s*\([^()]*\))?$/i;
/** No ratio of a modulation comes near this. */
const FAR_MER_DB = 100;

const NO_LEVEL = 'no level';
const NO_VOLTAGE = "is no level: a signal's voltage is above 0";

type Part<T> = Readonly<{ value: T | null; reason?: string; unlocked?: true }>;
type Read = Result<Part<number>>;
function frequencyIn(cells: TableCells, row: CsvRow, { reader, marks }: Marked): Read {
  const one = cells.written(row, 'frequency');
  if (one.kind === 'blank') return done({ value: null, reason: 'no frequency' });
  const text = cells.text(row, 'frequency');
  if (one.kind === 'words' && range.test(text))
    return done({ value: null, reason: `${text} is a range, not one frequency` });
  if (one.kind === 'number' ? numberWritten(one.digits) === 0 : saysNotLocked(text))
    return done({ value: null, reason: `frequency "${text}": the slot is not locked`, unlocked: true });
  const where = cells.where(row, 'frequency');
  if (one.kind === 'words') return refuse('not-a-number', where, `"${text.slice(0, 40)}" is not a frequency`);
  const read = reader.read({ digits: plainDigits(one.digits, marks), unit: one.unit, where });
  return read.ok ? done({ value: read.value }) : read;
}

/** What stood beside levels and is no part of them, in words. */
function markNotes(cells: TableCells, { body }: Table): readonly string[] {
  const marks = new Set<string>();
  for (const row of body) {
    const one = cells.written(row, 'level');
    if (one.kind === 'number' && one.mark !== undefined) marks.add(one.mark);
  }
  if (marks.size === 0) return [];
  const shown = [...marks].slice(0, 4).map((mark) => `"${mark}"`);
  return [
    `${shown.join(', ')} beside a level ${marks.size === 1 ? 'says' : 'say'} how good it is, no part of it`,
  ];
}

function levelIn(cells: TableCells, row: CsvRow, { reader, marks }: Marked): Read {
  const one = cells.written(row, 'level');
  const text = cells.text(row, 'level');
  if (one.kind === 'blank') return done({ value: null, reason: NO_LEVEL });
  const where = cells.where(row, 'level');
  if (one.kind === 'words') {
    if (saysNotLocked(text)) return done({ value: null, reason: 'not locked', unlocked: true });
    return refuse('not-a-number', where, `"${text.slice(0, 40)}" is not a level`);
  }
  // A slot that is not locked says a bare 0, also where readings carry their unit.
  if (one.unit === '' && reader.unit === 'in the cells' && cells.isDead(row))
    return done({ value: null, reason: 'not locked', unlocked: true });
  const read = reader.read({ digits: plainDigits(one.digits, marks), unit: one.unit, where });
  if (!read.ok) return read;
  // The logarithm of nothing is no number, and of less there is none.
  if (read.value !== null) return done({ value: read.value });
  const unit = one.unit !== '' ? '' : reader.unit === 'uV' ? ' \u00B5V' : ' mV';
  return done({ value: null, reason: `${text}${unit} ${NO_VOLTAGE}` });
}

function merIn(cells: TableCells, row: CsvRow, { merMarks, merParts }: Beside): Result<number | null> {
  const mer = cells.written(row, 'mer');
  if (mer.kind === 'blank') return done(null);
  const where = () => cells.where(row, 'mer');
  const text = cells.text(row, 'mer').slice(0, 40);
  if (mer.kind === 'words')
    return cells.isDead(row) ? done(null) : refuse('not-a-number', where(), `"${text}" is not in dB`);
  const parts = mer.unit.length > 2 ? partsIn(mer.unit) : 1;
  const unit = mer.unit.toLowerCase().replace(/^(tenths?|hundredths?)\s*(of\s+)?(a\s+)?/, '');
  const value = numberWritten(plainDigits(mer.digits, merMarks));
  if (value === null || (unit !== '' && unit !== 'db'))
    return refuse('not-a-number', where(), `"${text}" is not in dB`);
  const merDb = value / (parts === 1 ? merParts : parts);
  if (Math.abs(merDb) > FAR_MER_DB)
    return refuse(
      'out-of-range',
      where(),
      `${text} is no ratio in dB; if it counts tenths, write "tenths of dB" in the heading`,
    );
  return done(merDb);
}

/** So many different cells of a column are remembered; levels and ratios come again and again, frequencies don't. */
const MOST_REMEMBERED = 5000;

/** What a cell says where that is certain at sight; null where it must be looked at closely. */
function quickly(cells: TableCells, role: Role, { reader, marks }: Marked, known?: Map<string, number>) {
  const textIn = cells.texts(role);
  return (row: CsvRow): number | null => {
    const text = textIn(row);
    const before = known?.get(text);
    if (before !== undefined) return before;
    const one = writtenIn(text);
    if (one.kind !== 'number') return null;
    // A bare number among others with their unit may be a slot that is not locked.
    if (one.unit === '' && reader.unit === 'in the cells') return null;
    const value = reader.quick(plainDigits(one.digits, marks), one.unit);
    if (value !== null && known !== undefined && known.size < MOST_REMEMBERED) known.set(text, value);
    return value;
  };
}

type RowBeingRead = { -readonly [K in keyof LevelRow]: LevelRow[K] };

type Extra = Readonly<{ kind: SignalKind | null; modulation: string }>;

/** Adds what a row says besides frequency and level. */
function extrasOf(cells: TableCells, beside: Beside) {
  const extras = new Map<string, Extra>();
  const mers = new Map<string, number | null>();
  const extraOf = (kindText: string, modulationText: string, type: string): Extra => {
    const key = `${kindText}\n${modulationText}\n${type}`;
    const before = extras.get(key);
    if (before !== undefined) return before;
    const modulation = textOfCell(modulationText);
    const kind =
      (kindText === '' ? null : kindOf(kindText)) ??
      kindOfModulation(modulation) ??
      kindOfModulation(type) ??
      beside.kind;
    const extra = { kind, modulation };
    if (extras.size < MOST_REMEMBERED) extras.set(key, extra);
    return extra;
  };
  const kindIn = cells.texts('kind');
  const typeIn = cells.texts('type');
  const merTextIn = cells.texts('mer');
  const labelIn = cells.texts('label');
  return (row: RowBeingRead, from: CsvRow): Refusal | null => {
    const kindText = kindIn(from);
    const { kind, modulation } = extraOf(kindText, cells.modulation(from), typeIn(from));
    if (kindText !== '' && kindOf(kindText) === null) {
      const help = `"${kindText.slice(0, 40)}" is not analog, qam, ofdm or cw`;
      return refuse('bad-kind', cells.where(from, 'kind'), help);
    }
    const merText = merTextIn(from);
    let merDb = merText === '' ? null : mers.get(merText);
    if (merDb === undefined) {
      const read = merIn(cells, from, beside);
      if (!read.ok) return read;
      merDb = read.value;
      // What is no number may be one in another row: that of a slot that is not locked.
      if (merDb !== null && mers.size < MOST_REMEMBERED) mers.set(merText, merDb);
    }
    const label = textOfCell(labelIn(from));
    if (kind !== null) row.kind = kind;
    if (modulation !== '') row.modulation = modulation;
    if (merDb !== null) row.merDb = merDb;
    if (label !== '') row.label = label;
    const lock = cells.lock(from);
    if (lock !== '' && saysNotLocked(lock)) row.unlocked = true;
    return null;
  };
}

function onlyRanges({ body }: Table, cells: TableCells): Refusal<'no-frequency'> | null {
  const [first] = body;
  if (first === undefined || !body.every((row) => range.test(cells.text(row, 'frequency')))) return null;
  const help = 'no row names one frequency; give the centre of each channel';
  return refuse('no-frequency', cells.where(first, 'frequency'), help);
}

type Why = (row: CsvRow) => string | null;
/** Why a row is no reading though it has its numbers; null for all others. */
const noReading =
  (sent: ReadonlyMap<CsvRow, string>): Why =>
  (row) => {
    const way = sent.get(row);
    if (way !== undefined) return `"${way}" says that it is sent, no reading`;
    return isSummary(row) ? `"${row.cells.find((cell) => cell !== '') ?? ''}" sums up other rows` : null;
  };

/** Rows that are no readings are named where they stand. */
function withLeftOut(rows: readonly LevelRow[], { body }: Table, why: Why): readonly LevelRow[] {
  if (rows.length === body.length) return rows;
  let at = 0;
  return body.flatMap((row): LevelRow | readonly LevelRow[] => {
    const reason = why(row);
    if (reason === null) return rows[at++] ?? [];
    return { frequencyMhz: null, levelDbmv: null, reason, line: row.line };
  });
}

/**
 * One table to rows.
 * @param found     its columns certain
 * @param beside    units that stand outside of it
 * @param fileName  named in every refusal
 * @returns  every row with MHz and dBmV at 75 ohm; rows without a single frequency or without a level keep null there
 *           and a reason. Refused with file, line, column and what would help.
 * @source   contract, section 1
 */
export function rowsOfTable(found: Table, beside: UnitsBeside, fileName: string): Result<TableRows> {
  const sent = sentRows(found, fileName);
  if (!sent.ok) return sent;
  const why = noReading(sent.value);
  const readings = found.body.filter((row) => why(row) === null);
  if (readings.length === 0)
    return refuse('no-rows', fileName, 'the file has a header and no rows; read the levels again');
  const oneLevel = withOneLevel({ ...found, body: readings }, fileName);
  if (!oneLevel.ok) return oneLevel;
  const table = oneLevel.value;
  const second = secondLevel(table, fileName);
  if (second !== null) return second;
  const cells = cellsOf(table, fileName);
  const readers = readersOf(table, cells, beside);
  if (!readers.ok) return readers;
  const badLock = lockRefusal(table, cells);
  if (badLock !== null) return badLock;
  const { frequency, level, notes, parts } = readers.value;
  const rows: LevelRow[] = [];
  const quickMhz = quickly(cells, 'frequency', frequency);
  const quickDbmv = quickly(cells, 'level', level, new Map());
  const addExtras = extrasOf(cells, readers.value.beside);
  for (const row of table.body) {
    const read: RowBeingRead = { frequencyMhz: quickMhz(row), levelDbmv: quickDbmv(row) };
    if (read.frequencyMhz === null || read.levelDbmv === null) {
      const atMhz = frequencyIn(cells, row, frequency);
      if (!atMhz.ok) return atMhz;
      const atDbmv = levelIn(cells, row, level);
      if (!atDbmv.ok) return atDbmv;
      const reason = atMhz.value.reason ?? atDbmv.value.reason;
      read.frequencyMhz = atMhz.value.value;
      read.levelDbmv = atDbmv.value.value;
      if (atMhz.value.unlocked || atDbmv.value.unlocked) read.unlocked = true;
      if (reason !== undefined) read.reason = reason;
    }
    const refusal = addExtras(read, row);
    if (refusal !== null) return refusal;
    // Why a slot that is not locked has no level, it says itself.
    if (read.unlocked && (read.reason === NO_LEVEL || read.reason?.endsWith(NO_VOLTAGE)))
      read.reason = 'not locked';
    read.line = row.line;
    rows.push(read);
  }
  const doubt = unitDoubt(rows, cells, table);
  if (doubt !== null) return doubt;
  return done({
    rows: withLeftOut(rows, found, why),
    decimal: level.marks.decimal ?? frequency.marks.decimal ?? readers.value.beside.merMarks.decimal,
    frequencyUnit: frequency.reader.unit,
    levelUnit: level.reader.unit,
    parts,
    notes: [...notes, ...markNotes(cells, table)],
    onlyRanges: onlyRanges(table, cells),
  });
}
