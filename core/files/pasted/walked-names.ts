import { done, type Result, refuse } from '../../result.ts';
import type { CsvRow, NotedLine } from '../csv-lines.ts';
import { frequencyUnitOf } from '../frequency-unit.ts';
import { headerWord, type Role } from '../header-words.ts';
import { levelUnitOf } from '../level-unit.ts';
import { writtenIn } from '../written-number.ts';
import { directionOfWords } from './direction.ts';
import { type Clash, columnsOf, type Table } from './table.ts';

/** A name, its index and a value; `group` is what stood before an index in the middle of a name. */
type Said = Readonly<{ line: number; group: string; name: string; index: string; value: string }>;

const LONGEST = 200;
const name = String.raw`[A-Za-z][\w-]*(?:::?[A-Za-z][\w-]*)*`;
/** "level_dbmv.3.1 = 36.1", "level_dbmv[3]: 36.1" */
const behind = new RegExp(String.raw`^(${name})((?:\.\d+)+|\[\d+\])\s*[=:]\s*(.*)$`);
/** "downstream.1.power = 1.2 dBmV" */
const between = new RegExp(String.raw`^(${name})[.[](\d+)\]?\.(${name})\s*[=:]\s*(.*)$`);
/** The type of a value, as a walk through a managed device's tables prints it. */
const typed = /^(?:INTEGER|STRING|Gauge32|Counter32|Counter64|Unsigned32|Integer32|Hex-STRING|TimeTicks):\s*/;
/** "notLocked(2)" */
const counted = /^([A-Za-z]\w*)\(\d+\)$/;

function bareValue(written: string): string {
  const bare = written
    .trim()
    .replace(typed, '')
    .replace(/^"(.*)"$/, '$1')
    .trim();
  return counted.exec(bare)?.[1] ?? bare;
}

function saidIn(line: string, number: number): Said | null {
  if (line.length > LONGEST) return null;
  const at = { line: number };
  const last = behind.exec(line);
  if (last !== null) {
    const index = (last[2] ?? '').replace(/[[\]]/g, '.').replace(/^\.|\.$/g, '');
    return { ...at, group: '', name: last[1] ?? '', index, value: bareValue(last[3] ?? '') };
  }
  const middle = between.exec(line);
  if (middle === null) return null;
  const [, group = '', index = '', own = '', value = ''] = middle;
  return { ...at, group, name: own, index, value: bareValue(value) };
}

/** Without the module before a name, which is no part of it. */
const ownName = (written: string): string => written.replace(/^.*::/, '');

/** A name whose words nobody foresaw, with the unit that every value of it carries. */
function headOf(own: string, values: readonly string[]): string {
  if (headerWord(own).role !== null) return own;
  const units = new Set(
    values.flatMap((value) => {
      const one = writtenIn(value);
      return one.kind === 'number' ? [frequencyUnitOf(one.unit) ?? levelUnitOf(one.unit) ?? ''] : [];
    }),
  );
  const [only = ''] = units;
  return units.size === 1 && only !== '' && headerWord(own).frequencyUnit === null ? `${own} (${only})` : own;
}

export type WalkedTables = Readonly<{
  tables: readonly Table[];
  rest: readonly NotedLine[];
  clash: (Clash & Readonly<{ line: number }>) | null;
}>;

/** One table of the names that go one way: a row each index, a column each name. */
function tableOf(said: readonly Said[], title: string): Table {
  const heads = [...new Set(said.map((one) => one.name))];
  const byIndex = new Map<string, { line: number; cells: string[] }>();
  for (const one of said) {
    const row = byIndex.get(one.index) ?? { line: one.line, cells: heads.map(() => '') };
    row.cells[heads.indexOf(one.name)] = one.value;
    byIndex.set(one.index, row);
  }
  const body: readonly CsvRow[] = [...byIndex.values()];
  const cells = heads.map((head, i) =>
    headOf(
      head,
      body.map((row) => row.cells[i] ?? ''),
    ),
  );
  const header = { line: said[0]?.line ?? 1, cells };
  const titles = title === '' ? [] : [{ line: header.line, text: title }];
  return { separator: '=', layout: 'rows', header, columns: columnsOf(header).columns, body, titles };
}

/**
 * The tables of a list of names with an index and a value each, as a walk through a device's management tables or a
 * program's counters are printed: "level_dbmv.3 = 36.1". Every line that is not blank must be one.
 * @param text      plain, line feeds only
 * @param needed    the columns without which a table is no use
 * @param fileName  named in a refusal
 * @returns  null where a line is no such name, or no names make a table; refused where a name has two values. Names of
 *           what is received and of what is sent are two tables
 * @source   contract, section 1; the form and the units of RFC 4546 as common tools print them, from memory
 */
export function walkedTables(
  text: string,
  needed: readonly Role[],
  fileName: string,
): Result<WalkedTables, 'bad-key'> | null {
  const said: Said[] = [];
  for (const [i, line] of text.split('\n').entries()) {
    if (line.trim() === '') continue;
    const one = saidIn(line.trim(), i + 1);
    if (one === null) return null;
    said.push({ ...one, name: ownName(one.name) });
  }
  const seen = new Map<string, Said>();
  for (const one of said) {
    const key = `${one.group} ${one.name} ${one.index}`;
    const before = seen.get(key);
    if (before !== undefined && before.value !== one.value) {
      const help = `${one.name} has the index ${one.index} twice, with two values; keep the one that counts`;
      return refuse('bad-key', `${fileName}, line ${one.line}`, help);
    }
    seen.set(key, one);
  }
  // Without a group, names that say their way are told apart by it.
  const keyOf = ({ group, name: own }: Said) => (group === '' ? (directionOfWords(own) ?? '') : group);
  const tables = [...new Set(said.map(keyOf))].map((key) =>
    tableOf(
      said.filter((one) => keyOf(one) === key),
      key,
    ),
  );
  // Indices that never meet are of different things.
  const meets = ({ columns, body }: Table) =>
    body.some(({ cells }) => needed.every((role) => (cells[columns[role]?.index ?? -1] ?? '') !== ''));
  const useful = tables.filter(
    (table) => needed.every((role) => table.columns[role] !== undefined) && meets(table),
  );
  if (useful.length === 0) return null;
  let clash: WalkedTables['clash'] = null;
  for (const { header } of useful) {
    const named = columnsOf(header);
    if (named.clash !== null) clash ??= { ...named.clash, line: header.line };
  }
  const rest = tables
    .filter((table) => !useful.includes(table))
    .map(({ header }) => ({ line: header.line, text: header.cells.join(' ').slice(0, 200) }));
  return done({ tables: useful, rest, clash });
}
