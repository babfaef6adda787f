import type { LevelRow } from '../line/level-row.ts';
import { done, type Refusal, type Result, refuse } from '../result.ts';
import { type Cell, frequencyReader, levelReader, type Reader } from './column-units.ts';
import type { CsvRow } from './csv-lines.ts';
import type { Role } from './header-words.ts';
import { kindOf, kindOfModulation } from './signal-kind.ts';
import { readTable, type Table } from './sweep-dialect.ts';
import { textOfCell } from './text-cell.ts';
import { type DecimalSign, decimalSign, numberWritten, type Written, writtenIn } from './written-number.ts';

export type ReadSweep = Readonly<{
  /** Every row of the file in its order, also those that are no reading. */
  rows: LevelRow[];
  /** The rows among them that are no reading, and why. */
  left: { line: number; reason: string }[];
  /** How the file was read, for telling the person. */
  understood: Readonly<{
    separator: string;
    decimal: DecimalSign | null;
    frequencyUnit: string;
    levelUnit: string;
    /** By what each column was taken for: its heading. */
    columns: Readonly<Partial<Record<Role, string>>>;
  }>;
}>;

const range =
  /^\d+(?:[.,]\d+)?\s*(?:[kmg]?hz)?\s*(?:-|–|—|~|\.{2,3}|\bto\b)\s*\d+(?:[.,]\d+)?\s*(?:[kmg]?hz)?$/i;
const notLocked = /^(not[\s_-]?locked|unlocked|no|false|0|n)$/i;
const locked = /^(locked|yes|true|1|y|ok)?$/i;
const isZero = (written: Written) => written.kind === 'number' && numberWritten(written.digits) === 0;

/** Asks one table for its cells, by row and role. */
function cellsOf(table: Table, fileName: string) {
  const where = (row: CsvRow, role: Role) =>
    `${fileName}, line ${row.line}, column "${table.columns[role]?.header ?? role}"`;
  const text = (row: CsvRow, role: Role) => row.cells[table.columns[role]?.index ?? -1] ?? '';
  const written = (row: CsvRow, role: Role) => writtenIn(text(row, role));
  const numbers = (role: Role): Cell[] =>
    table.body.flatMap((row) => {
      const one = written(row, role);
      return one.kind === 'number' ? [{ digits: one.digits, unit: one.unit, where: where(row, role) }] : [];
    });
  return { where, text, written, numbers };
}
type Cells = ReturnType<typeof cellsOf>;

type Part<T> = Readonly<{ value: T | null; reason?: string; unlocked?: true }>;

function frequencyIn(cells: Cells, row: CsvRow, reader: Reader): Result<Part<number>> {
  const one = cells.written(row, 'frequency');
  const text = cells.text(row, 'frequency');
  if (one.kind === 'blank') return done({ value: null, reason: 'no frequency' });
  if (range.test(text)) return done({ value: null, reason: `${text} is a range, not one frequency` });
  if (notLocked.test(text) || isZero(one))
    return done({ value: null, reason: `frequency "${text}": the slot is not locked`, unlocked: true });
  const where = cells.where(row, 'frequency');
  if (one.kind === 'words') return refuse('not-a-number', where, `"${text.slice(0, 40)}" is not a frequency`);
  const read = reader.read({ digits: one.digits, unit: one.unit, where });
  return read.ok ? done({ value: read.value }) : read;
}

function levelIn(cells: Cells, row: CsvRow, reader: Reader): Result<Part<number>> {
  const one = cells.written(row, 'level');
  const text = cells.text(row, 'level');
  if (one.kind === 'blank') return done({ value: null, reason: 'no level' });
  const where = cells.where(row, 'level');
  if (one.kind === 'words') {
    if (notLocked.test(text)) return done({ value: null, reason: 'not locked', unlocked: true });
    return refuse('not-a-number', where, `"${text.slice(0, 40)}" is not a level`);
  }
  const read = reader.read({ digits: one.digits, unit: one.unit, where });
  return read.ok ? done({ value: read.value }) : read;
}

/** What a row says besides frequency and level. */
function extrasIn(cells: Cells, row: CsvRow): Result<Partial<LevelRow>> {
  const kindText = cells.text(row, 'kind');
  const kind = kindOf(kindText);
  if (kindText !== '' && kind === null)
    return refuse(
      'bad-kind',
      cells.where(row, 'kind'),
      `"${kindText.slice(0, 40)}" is not analog, qam, ofdm or cw`,
    );
  const modulation = textOfCell(cells.text(row, 'modulation'));
  const ofKind = kind ?? kindOfModulation(modulation);
  const mer = cells.written(row, 'mer');
  const merDb = mer.kind === 'number' ? numberWritten(mer.digits) : null;
  const merIsDb = mer.kind !== 'number' || mer.unit === '' || mer.unit.toLowerCase() === 'db';
  if (mer.kind === 'words' || !merIsDb || (mer.kind === 'number' && merDb === null))
    return refuse(
      'not-a-number',
      cells.where(row, 'mer'),
      `"${cells.text(row, 'mer').slice(0, 40)}" is not in dB`,
    );
  const label = textOfCell(cells.text(row, 'label'));
  const lock = cells.text(row, 'lock');
  const unlocked = notLocked.test(lock);
  return done({
    ...(ofKind === null ? {} : { kind: ofKind }),
    ...(modulation === '' ? {} : { modulation }),
    ...(merDb === null ? {} : { merDb }),
    ...(label === '' ? {} : { label }),
    ...(unlocked ? { unlocked } : {}),
  });
}

/** A heading that promises the state of the lock must be answered in words that say it. */
function lockRefusal(table: Table, cells: Cells): Refusal | null {
  const column = table.columns.lock;
  if (column === undefined || !/lock/i.test(column.header)) return null;
  const odd = table.body.find((row) => {
    const text = cells.text(row, 'lock');
    return !locked.test(text) && !notLocked.test(text);
  });
  if (odd === undefined) return null;
  const word = cells.text(odd, 'lock').slice(0, 40);
  return refuse('bad-lock', cells.where(odd, 'lock'), `"${word}" is neither "locked" nor "not locked"`);
}

/**
 * A sweep file's text to rows: the project's own CSV, and the separators, decimal signs, headings and units that can
 * be told for certain.
 * @param text      as decoded from UTF-8
 * @param fileName  named in every refusal
 * @returns  every row with MHz and dBmV at 75 ohm; rows without a single frequency or without a level keep null there
 *           and a reason. Refused with file, line, column and what would help: what is no text, has no header, no rows,
 *           a unit or a decimal sign that is not certain, or words where a number is due. Nothing is half imported.
 * @source   contract, section 1
 */
export function readSweepCsv(text: string, fileName: string): Result<ReadSweep> {
  const table = readTable(text, fileName, ['frequency', 'level']);
  if (!table.ok) return table;
  const { separator, header, columns, body } = table.value;
  if (columns.frequency === undefined || columns.level === undefined)
    throw new RangeError('a table without the columns that were needed');
  if (body.length === 0)
    return refuse('no-rows', fileName, 'the file has a header and no rows; read the levels again');
  const cells = cellsOf(table.value, fileName);
  const frequencies = cells.numbers('frequency').filter((cell) => numberWritten(cell.digits) !== 0);
  const levels = cells.numbers('level');
  const decimal = decimalSign([...frequencies, ...levels, ...cells.numbers('mer')], separator);
  if (!decimal.ok) return decimal;
  const heading = (role: Role) => cells.where(header, role);
  const frequency = frequencyReader(columns.frequency, frequencies, heading('frequency'));
  if (!frequency.ok) return frequency;
  const level = levelReader(columns.level, levels, heading('level'));
  if (!level.ok) return level;
  const badLock = lockRefusal(table.value, cells);
  if (badLock !== null) return badLock;

  const rows: LevelRow[] = [];
  for (const row of body) {
    const atMhz = frequencyIn(cells, row, frequency.value);
    if (!atMhz.ok) return atMhz;
    const atDbmv = levelIn(cells, row, level.value);
    if (!atDbmv.ok) return atDbmv;
    const extras = extrasIn(cells, row);
    if (!extras.ok) return extras;
    const reason = atMhz.value.reason ?? atDbmv.value.reason;
    rows.push({
      frequencyMhz: atMhz.value.value,
      levelDbmv: atDbmv.value.value,
      ...extras.value,
      ...(atMhz.value.unlocked || atDbmv.value.unlocked ? { unlocked: true } : {}),
      ...(reason === undefined ? {} : { reason }),
      line: row.line,
    });
  }
  const left = rows.flatMap(({ line = 0, reason }) => (reason === undefined ? [] : [{ line, reason }]));
  const named = Object.entries(columns).map(([role, column]) => [role, column.header]);
  return done({
    rows,
    left,
    understood: {
      separator,
      decimal: decimal.value,
      frequencyUnit: frequency.value.unit,
      levelUnit: level.value.unit,
      columns: Object.fromEntries(named),
    },
  });
}
