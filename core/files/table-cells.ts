import { type Refusal, refuse } from '../result.ts';
import type { Cell } from './column-units.ts';
import type { CsvRow } from './csv-lines.ts';
import type { Role } from './header-words.ts';
import { saysLocked, saysNotLocked, saysPlainlyNotLocked } from './lock-words.ts';
import { placeOf, type Table } from './pasted/table.ts';
import { isModulation } from './signal-kind.ts';
import { numberWritten, type Written, writtenIn } from './written-number.ts';

/** More than a line of a file may say of a cell. */
const SHOWN = 40;
/** What decides how a number is read: its marks, its unit and its size. Short ones stand for themselves. */
const formOf = (cell: string): string =>
  cell.length <= 4 ? cell : cell.slice(0, 3) + cell.replace(/\d/g, '9');

const isDigit = (code: number): boolean => code > 47 && code < 58;
/** The same question for two cells, without making either form. */
function isFormOf(one: string, other: string): boolean {
  if (one.length !== other.length || one.length === 0) return false;
  const exact = one.length <= 4 ? one.length : 3;
  for (let i = 0; i < one.length; i++) {
    const a = one.charCodeAt(i);
    const b = other.charCodeAt(i);
    if (a !== b && (i < exact || !isDigit(a) || !isDigit(b))) return false;
  }
  return true;
}

/** So many cells of a column are known again at sight. */
const MOST_REMEMBERED = 5000;

/** Asks one table for its cells, by row and role. */
export type TableCells = Readonly<{
  where: (row: CsvRow, role: Role) => string;
  text: (row: CsvRow, role: Role) => string;
  /** The same for one role of many rows. */
  texts: (role: Role) => (row: CsvRow) => string;
  written: (row: CsvRow, role: Role) => Written;
  /** The numbers of a column, one of each form and size, with the place where it stands first. */
  numbers: (role: Role, rows?: readonly CsvRow[]) => Cell[];
  /** What the row is modulated with; also where only its cells say that they are modulations. */
  modulation: (row: CsvRow) => string;
  /** What is said of its lock; also where only the cells say that this is what they tell of. */
  lock: (row: CsvRow) => string;
  /** Where the source itself says that the row is no reading: not locked, or tuned to 0. */
  isDead: (row: CsvRow) => boolean;
}>;

const isZero = (written: Written) => written.kind === 'number' && numberWritten(written.digits) === 0;

/** The first column without a name in which every cell that says something names a modulation. */
function columnOfModulations(table: Table): number {
  const named = new Set(Object.values(table.columns).map(({ index }) => index));
  return table.header.cells.findIndex((_, i) => {
    if (named.has(i)) return false;
    const said = table.body.filter((row) => (row.cells[i] ?? '') !== '');
    return said.length > 0 && said.every((row) => isModulation(row.cells[i] ?? ''));
  });
}

/** The column without a known name that tells of the lock: every cell a word of it, one of them plainly. */
function columnOfLocks(table: Table): number {
  const named = new Set(Object.values(table.columns).map(({ index }) => index));
  return table.header.cells.findIndex((_, i) => {
    if (named.has(i)) return false;
    let isPlain = false;
    for (const row of table.body) {
      const text = row.cells[i] ?? '';
      if (!saysLocked(text) && !saysNotLocked(text)) return false;
      isPlain ||= saysPlainlyNotLocked(text);
    }
    return isPlain;
  });
}

/**
 * A table's cells by row and role.
 * @param table     its columns certain
 * @param fileName  named in every place
 * @returns  what asks for them; a cell that is not there is empty
 * @source   contract, section 1
 */
export function cellsOf(table: Table, fileName: string): TableCells {
  const modulationAt = table.columns.modulation?.index ?? columnOfModulations(table);
  const lockAt = table.columns.lock?.index ?? columnOfLocks(table);
  const where = (row: CsvRow, role: Role) => placeOf(table, row, role, fileName);
  const text = (row: CsvRow, role: Role) => row.cells[table.columns[role]?.index ?? -1] ?? '';
  const texts = (role: Role) => {
    const index = table.columns[role]?.index ?? -1;
    return (row: CsvRow) => row.cells[index] ?? '';
  };
  const frequencyText = texts('frequency');
  const written = (row: CsvRow, role: Role) => writtenIn(text(row, role));
  return {
    where,
    text,
    texts,
    written,
    numbers: (role, rows = table.body) => {
      const found: Cell[] = [];
      if (table.columns[role] === undefined) return found;
      const seen = new Set<string>();
      const same = new Set<string>();
      const textIn = texts(role);
      let before = '';
      for (const row of rows) {
        const cell = textIn(row);
        // Most rows are written as the one before.
        if (isFormOf(before, cell)) continue;
        before = cell;
        if (same.has(cell)) continue;
        if (same.size < MOST_REMEMBERED) same.add(cell);
        const form = formOf(cell);
        if (seen.has(form)) continue;
        seen.add(form);
        const one = writtenIn(cell);
        if (one.kind === 'number')
          found.push({ digits: one.digits, unit: one.unit, where: where(row, role) });
      }
      return found;
    },
    modulation: (row) => row.cells[modulationAt] ?? '',
    lock: (row) => row.cells[lockAt] ?? '',
    isDead: (row) => {
      const locked = row.cells[lockAt] ?? '';
      if (locked !== '' && saysNotLocked(locked)) return true;
      const tuned = frequencyText(row);
      const first = tuned.charCodeAt(0);
      // A frequency that begins with 1 to 9 is neither a word nor 0.
      return !(first > 48 && first < 58) && (saysNotLocked(tuned) || isZero(writtenIn(tuned)));
    },
  };
}

/**
 * A heading that promises the state of the lock must be answered in words that say it.
 * @returns  the refusal of the first word that does not, else null
 * @source   contract, section 1: nothing is guessed silently
 */
export function lockRefusal(table: Table, cells: TableCells): Refusal<'bad-lock'> | null {
  const column = table.columns.lock;
  if (column === undefined) return null;
  const isHeaded = /lock/i.test(column.header);
  const odd = table.body.find((row) => {
    const text = cells.text(row, 'lock');
    // "Partially locked" below "Status" speaks of the lock as well.
    return (isHeaded || /lock|sync/i.test(text)) && !saysLocked(text) && !saysNotLocked(text);
  });
  if (odd === undefined) return null;
  const word = cells.text(odd, 'lock').slice(0, SHOWN);
  return refuse('bad-lock', cells.where(odd, 'lock'), `"${word}" is neither "locked" nor "not locked"`);
}
