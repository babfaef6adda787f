import { type Refusal, refuse } from '../result.ts';
import type { Cell } from './column-units.ts';
import type { CsvRow } from './csv-lines.ts';
import type { Role } from './header-words.ts';
import { placeOf, type Table } from './pasted/table.ts';
import { isModulation } from './signal-kind.ts';
import { numberWritten, type Written, writtenIn } from './written-number.ts';

/** More than a line of a file may say of a cell. */
const SHOWN = 40;
const notLocked =
  /^(not?[\s_-]?(locked|acquired|synced)|un[\s-]?locked|out of (lock|sync)|inactive|down|off|no|false|0|n|\u2717|\u2718)$/i;
const locked =
  /^(locked|acquired|synced|in sync|operational|active|up|on|yes|true|1|y|ok|success(ful)?|\u2713|\u2714)?$/i;

/**
 * Whether a cell says that the source had no signal there.
 * @returns  true for "Not Locked" and its like
 * @source   common practice, no published source
 */
export const saysNotLocked = (text: string): boolean => notLocked.test(text);

/** Asks one table for its cells, by row and role. */
export type TableCells = Readonly<{
  where: (row: CsvRow, role: Role) => string;
  text: (row: CsvRow, role: Role) => string;
  written: (row: CsvRow, role: Role) => Written;
  /** The numbers of a column, with their places. */
  numbers: (role: Role, rows?: readonly CsvRow[]) => Cell[];
  /** What the row is modulated with; also where only its cells say that they are modulations. */
  modulation: (row: CsvRow) => string;
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

/**
 * A table's cells by row and role.
 * @param table     its columns certain
 * @param fileName  named in every place
 * @returns  what asks for them; a cell that is not there is empty
 * @source   contract, section 1
 */
export function cellsOf(table: Table, fileName: string): TableCells {
  const modulationAt = table.columns.modulation?.index ?? columnOfModulations(table);
  const where = (row: CsvRow, role: Role) => placeOf(table, row, role, fileName);
  const text = (row: CsvRow, role: Role) => row.cells[table.columns[role]?.index ?? -1] ?? '';
  const written = (row: CsvRow, role: Role) => writtenIn(text(row, role));
  return {
    where,
    text,
    written,
    numbers: (role, rows = table.body) =>
      rows.flatMap((row) => {
        const one = written(row, role);
        return one.kind === 'number' ? [{ digits: one.digits, unit: one.unit, where: where(row, role) }] : [];
      }),
    modulation: (row) => row.cells[modulationAt] ?? '',
    isDead: (row) =>
      notLocked.test(text(row, 'lock')) ||
      notLocked.test(text(row, 'frequency')) ||
      isZero(written(row, 'frequency')),
  };
}

/**
 * A heading that promises the state of the lock must be answered in words that say it.
 * @returns  the refusal of the first word that does not, else null
 * @source   contract, section 1: nothing is guessed silently
 */
export function lockRefusal(table: Table, cells: TableCells): Refusal<'bad-lock'> | null {
  const column = table.columns.lock;
  if (column === undefined || !/lock/i.test(column.header)) return null;
  const odd = table.body.find((row) => {
    const text = cells.text(row, 'lock');
    return !locked.test(text) && !notLocked.test(text);
  });
  if (odd === undefined) return null;
  const word = cells.text(odd, 'lock').slice(0, SHOWN);
  return refuse('bad-lock', cells.where(odd, 'lock'), `"${word}" is neither "locked" nor "not locked"`);
}
