import { done, type Refusal, type Result, refuse } from '../../result.ts';
import type { TableRows } from '../table-rows.ts';
import { type Direction, directionOf, isSent } from './direction.ts';
import type { Table } from './table.ts';

/** A table of levels in a text, for showing what there is to choose from. */
export type FoundTable = Readonly<{
  /** From 1, in the order of the text. */
  number: number;
  /** Of its heading. */
  line: number;
  title: string | null;
  direction: Direction | null;
  /** True where it says that its levels are those that a modem sends. */
  isSent: boolean;
  layout: Table['layout'];
  rowCount: number;
  /** Of its readings, MHz; null where it has none or can't be read. */
  lowMhz: number | null;
  highMhz: number | null;
  taken: boolean;
}>;

type Readings = readonly number[];
function frequenciesOf(read: Result<TableRows> | null): Readings {
  const found: number[] = [];
  if (read?.ok === true)
    for (const { frequencyMhz } of read.value.rows) if (frequencyMhz !== null) found.push(frequencyMhz);
  return found;
}
const lowest = (all: Readings) => all.reduce((low, one) => Math.min(low, one), Number.POSITIVE_INFINITY);
const highest = (all: Readings) => all.reduce((high, one) => Math.max(high, one), Number.NEGATIVE_INFINITY);

/**
 * What a table is, in a few figures.
 * @param table   as found
 * @param number  from 1
 * @param read    its rows, or why they can't be read
 * @returns  not yet taken
 * @source   contract, section 1: what was understood is said
 */
export function foundTable(table: Table, number: number, read: Result<TableRows> | null): FoundTable {
  const frequencies = frequenciesOf(read);
  return {
    number,
    line: table.header.line,
    title: table.titles.at(-1)?.text ?? null,
    direction: directionOf(table),
    isSent: isSent(table),
    layout: table.layout,
    rowCount: table.body.length,
    lowMhz: frequencies.length === 0 ? null : lowest(frequencies),
    highMhz: frequencies.length === 0 ? null : highest(frequencies),
    taken: false,
  };
}

/**
 * A table in a few words.
 * @returns  its number, title, line, rows and band
 * @source   contract, section 1: what was understood is said
 */
export function tableWords({
  number,
  title,
  direction,
  line,
  rowCount,
  lowMhz,
  highMhz,
}: FoundTable): string {
  const name = title === null ? direction : `"${title.slice(0, 60)}"`;
  const band = lowMhz === null ? '' : `, ${lowMhz === highMhz ? lowMhz : `${lowMhz} to ${highMhz}`} MHz`;
  return `table ${number}${name === null ? '' : ` ${name}`} (line ${line}, ${rowCount} ${rowCount === 1 ? 'row' : 'rows'}${band})`;
}

/** An upstream ends here at the most, in the plans in use; a downstream begins above. Common practice. */
const TOP_OF_RETURN_MHZ = 85;
const FOOT_OF_FORWARD_MHZ = 105;

const namesAState = (title: string): boolean =>
  /\b(?:before|after|as ?found|as ?left|found|left|old|new|previous|target|design|limit|expected|nominal|reference|goal)s?\b/i.test(
    title.replace(/([a-z])([A-Z])/g, '$1 $2'),
  );

/** Whether the tables are plainly parts of one sweep: one direction, and no frequency in two of them. */
function areOne(found: readonly FoundTable[], read: readonly Result<TableRows>[]): boolean {
  const directions = new Set(found.map(({ direction }) => direction).filter((one) => one !== null));
  if (directions.size > 1) return false;
  // What is sent is never part of what is received, nor of what nobody says anything of.
  if (found.some(({ isSent: sends }) => sends) && !found.every(({ isSent: sends }) => sends)) return false;
  // Two states of one line, or what it shall be beside what it is, are never joined. What can't be read asks first.
  const isRead = read.every(({ ok }) => ok);
  if (isRead && found.some(({ title }) => title !== null && namesAState(title))) return false;
  const isReturn = ({ highMhz }: FoundTable) => highMhz !== null && highMhz <= TOP_OF_RETURN_MHZ;
  const isForward = ({ lowMhz }: FoundTable) => lowMhz !== null && lowMhz >= FOOT_OF_FORWARD_MHZ;
  const untold = found.some(({ direction }) => direction === null);
  if (untold && found.some(isReturn) && found.some(isForward)) return false;
  const seen = new Set<number>();
  return read.every((one) => {
    const own = new Set(frequenciesOf(one));
    const isNew = [...own].every((frequencyMhz) => !seen.has(frequencyMhz));
    for (const frequencyMhz of own) seen.add(frequencyMhz);
    return isNew;
  });
}

export type Chosen = Readonly<{
  read: readonly TableRows[];
  numbers: readonly number[];
  /** What was left out for a reason that the text itself gives, in words. */
  note: string | null;
}>;

/**
 * The tables of what is received, where every other one says that it is of what a modem sends: no reading of a line,
 * so that nothing is guessed in leaving it out.
 */
function received(found: readonly FoundTable[]): readonly FoundTable[] | null {
  // Beside what says that it is sent, a table that says nothing is received if no return reaches so high.
  const down = found.filter(
    ({ direction, lowMhz }) =>
      direction === 'downstream' || (direction === null && lowMhz !== null && lowMhz >= FOOT_OF_FORWARD_MHZ),
  );
  const isTold = found.every((table) => table.isSent || down.includes(table));
  return isTold && down.length > 0 && down.length < found.length ? down : null;
}

const severalTables = (found: readonly FoundTable[], fileName: string): Refusal<'several-tables'> =>
  refuse(
    'several-tables',
    `${fileName}, line ${found[1]?.line ?? 1}`,
    `the file holds ${found.length > 6 ? `${found.length} tables` : found.map(tableWords).join(' and ')}, which are not plainly one sweep; choose one, or keep only that one`,
  );

/**
 * Which tables make the sweep: the one that was told, the only one, those that say that they are of what is
 * received, or all that are plainly parts of one.
 * @param found     every table
 * @param read      the rows of each, or why they can't be read
 * @param told      its number, from 1; null where nobody said
 * @param fileName  named in a refusal
 * @returns  the rows of the chosen ones; or a refusal of the first that can't be read, of a number that there is not,
 *           or of tables among which a person must choose
 * @source   contract, section 1: nothing is guessed silently; the limits of the bands are common practice
 */
export function chosenTables(
  found: readonly FoundTable[],
  read: readonly Result<TableRows>[],
  told: number | null,
  fileName: string,
): Result<Chosen> {
  if (told !== null) {
    const one = read[told - 1];
    if (one === undefined)
      return refuse('no-such-table', fileName, `it has no table ${told}; there are ${found.length}`);
    return one.ok ? done({ read: [one.value], numbers: [told], note: null }) : one;
  }
  const down = received(found);
  const some = down ?? found;
  const readings = some.flatMap(({ number }) => read[number - 1] ?? []);
  if (some.length > 1 && !areOne(some, readings)) return severalTables(found, fileName);
  const rows: TableRows[] = [];
  for (const one of readings) {
    if (!one.ok) return one;
    rows.push(one.value);
  }
  const sent = down === null ? [] : found.filter((table) => !down.includes(table));
  return done({
    read: rows,
    numbers: some.map(({ number }) => number),
    note:
      sent.length === 0
        ? null
        : `${sent.map(tableWords).join(' and ')} ${sent.length === 1 ? 'is' : 'are'} of what is sent upstream, no reading, and left out`,
  });
}
