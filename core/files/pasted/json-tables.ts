import { done, type Refusal, type Result, refuse } from '../../result.ts';
import type { CsvRow, NotedLine } from '../csv-lines.ts';
import type { Role } from '../header-words.ts';
import { type JsonNode, jsonTree } from './json-tree.ts';
import { type Clash, columnsOf, type Table } from './table.ts';

/** Rows with names, as they stand in a JSON text: `path` are the keys on the way to them. */
type Sheet = Readonly<{
  path: readonly string[];
  line: number;
  heads: readonly string[];
  body: readonly CsvRow[];
}>;
type Found = { sheets: Sheet[]; uneven: Refusal<'row-length'> | null; fileName: string };

type Item = Readonly<{ line: number; cells: ReadonlyMap<string, string> }>;

const isPlain = (node: JsonNode) => node.kind !== 'object' && node.kind !== 'list';
const plainText = (node: JsonNode): string =>
  !('text' in node) || (node.kind === 'word' && node.text === 'null') ? '' : node.text;

/** A list in the place of a value says several things: its cell is words, which no number answers. */
const listText = (items: readonly JsonNode[]): string =>
  items.length === 0 ? '' : `[${items.map((item) => (isPlain(item) ? plainText(item) : '...')).join(', ')}]`;

/** { "value": 57, "unit": "MHz" } */
function withUnit(entries: readonly (readonly [string, JsonNode])[]): string | null {
  const of = new Map(entries.map(([key, node]) => [key.toLowerCase(), node]));
  const [value, unit] = [of.get('value'), of.get('unit') ?? of.get('units')];
  return entries.length === 2 && value !== undefined && unit?.kind === 'text' && isPlain(value)
    ? `${plainText(value)} ${unit.text}`.trim()
    : null;
}

/** One object as a row; what lies in it is named by its keys one after the other. */
function itemOf(node: JsonNode & { kind: 'object' }): Item {
  const cells = new Map<string, string>();
  const put = (path: string, value: JsonNode) => {
    if (value.kind === 'list') cells.set(path, listText(value.items));
    else if (value.kind !== 'object') cells.set(path, plainText(value));
    else {
      const united = withUnit(value.entries);
      if (united !== null) cells.set(path, united);
      else for (const [key, inner] of value.entries) put(`${path} ${key}`, inner);
    }
  };
  for (const [key, value] of node.entries) put(key, value);
  return { line: node.line, cells };
}

function sheetOf(path: readonly string[], line: number, items: readonly Item[]): Sheet {
  const heads = [...new Set(items.flatMap(({ cells }) => [...cells.keys()]))];
  const body = items.map((item) => ({
    line: item.line,
    cells: heads.map((head) => item.cells.get(head) ?? ''),
  }));
  return { path, line, heads, body };
}

/** The names in front of rows of values, or none. */
function headsOf(items: readonly JsonNode[]): string[] | null {
  const [first] = items;
  return first?.kind === 'list' && first.items.length > 1 && first.items.every(({ kind }) => kind === 'text')
    ? first.items.map(plainText)
    : null;
}

function fromList(node: JsonNode & { kind: 'list' }, path: readonly string[], found: Found): void {
  const { items, line } = node;
  if (items.length > 0 && items.every((item) => item.kind === 'object')) {
    // Objects that hold whole tables are no rows.
    const holdsRows = items.some(({ entries }) =>
      entries.some(([, value]) => value.kind === 'list' && value.items.some((one) => !isPlain(one))),
    );
    if (!holdsRows) {
      found.sheets.push(sheetOf(path, line, items.map(itemOf)));
      return;
    }
  }
  const heads = headsOf(items);
  if (heads !== null && items.every((item) => item.kind === 'list' && item.items.every(isPlain))) {
    const body = items
      .slice(1)
      .map((item) => ({ line: item.line, cells: item.kind === 'list' ? item.items.map(plainText) : [] }));
    const odd = body.find(({ cells }) => cells.length !== heads.length);
    if (odd !== undefined) found.uneven ??= uneven(odd.line, found.fileName);
    found.sheets.push({ path, line: items[0]?.line ?? line, heads, body });
    return;
  }
  for (const item of items) if (!isPlain(item)) collect(item, path, found);
}

const uneven = (line: number, fileName: string) =>
  refuse(
    'row-length',
    `${fileName}, line ${line}`,
    'lists of unlike length are no table; give each row all its values',
  );

const isNumbered = (key: string) => /^(?:ch(?:an(?:nel)?)?[ _-]?)?\d+$/i.test(key);

function fromObject(node: JsonNode & { kind: 'object' }, path: readonly string[], found: Found): void {
  const { entries, line } = node;
  // A key each channel.
  if (entries.length > 0 && entries.every(([key, value]) => value.kind === 'object' && isNumbered(key))) {
    const items = entries.flatMap(([key, value]) => {
      if (value.kind !== 'object') return [];
      const item = itemOf(value);
      return [{ line: item.line, cells: new Map([['channel', key], ...item.cells]) }];
    });
    found.sheets.push(sheetOf(path, line, items));
    return;
  }
  // A list each quantity.
  const lists = entries.flatMap(([key, value]) =>
    value.kind === 'list' && value.items.length > 0 && value.items.every(isPlain)
      ? [{ key, items: value.items }]
      : [],
  );
  if (lists.length > 1) {
    const heads = lists.map(({ key }) => key);
    const [{ items } = { items: [] as readonly JsonNode[] }] = lists;
    const { columns } = columnsOf({ line, cells: heads });
    if (columns.frequency !== undefined && columns.level !== undefined) {
      if (lists.some((list) => list.items.length !== items.length))
        found.uneven ??= uneven(line, found.fileName);
      const body = items.map((item, i) => ({
        line: item.line,
        cells: lists.map((list) => plainText(list.items[i] ?? item)),
      }));
      found.sheets.push({ path, line, heads, body });
      return;
    }
  }
  for (const [key, value] of entries) if (!isPlain(value)) collect(value, [...path, key], found);
}

function collect(node: JsonNode, path: readonly string[], found: Found): void {
  if (node.kind === 'list') fromList(node, path, found);
  else if (node.kind === 'object') fromObject(node, path, found);
}

export type JsonTables = Readonly<{
  tables: readonly Table[];
  /** Rows that name no frequency or no level. */
  rest: readonly NotedLine[];
  clash: (Clash & Readonly<{ line: number }>) | null;
}>;

/** Keys under which stand levels that nobody read. */
const isNoReading =
  /\b(?:target|design|limit|expected|nominal|reference|goal|threshold|alarm|noise|floor|tolerance|plan|excluded)s?\b/i;
const wordsOf = (path: readonly string[]) =>
  path
    .join(' ')
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .replaceAll('_', ' ');

/** A comma in a value that is text: then it is the decimal sign or parts thousands, as between semicolons. */
const commaNumber = /^[+-\u2212]?\d+,\d/;

/**
 * The tables of a JSON text: objects in a list, lists in a list below their names, a list each quantity, an object a
 * line, or an object each channel. Numbers and keys stay as they are written; the keys on the way to the rows are
 * their title.
 * @param text      line feeds only
 * @param needed    the columns without which rows are no use
 * @param fileName  named in a refusal
 * @returns  null where the text does not begin as JSON; no tables where no rows name what is needed; refused where it
 *           is broken off, a key stands twice, or lists are of unlike length
 * @source   contract, section 1; RFC 8259. Which shapes hold rows is common practice, no published source
 */
export function jsonTables(
  text: string,
  needed: readonly Role[],
  fileName: string,
): Result<JsonTables, 'not-json' | 'bad-key' | 'row-length'> | null {
  const tree = jsonTree(text, fileName);
  if (tree === null || !tree.ok) return tree;
  const found: Found = { sheets: [], uneven: null, fileName };
  collect(tree.value, [], found);
  if (found.uneven !== null) return found.uneven;
  const tables: Table[] = [];
  const rest: NotedLine[] = [];
  let clash: JsonTables['clash'] = null;
  for (const { path, line, heads, body } of found.sheets) {
    const header = { line, cells: heads };
    const named = columnsOf(header);
    const title = path.join(' ');
    if (needed.some((role) => named.columns[role] === undefined) || isNoReading.test(wordsOf(path))) {
      rest.push({ line, text: [...path, ...heads].join(' ').slice(0, 200) });
      continue;
    }
    if (named.clash !== null) clash ??= { ...named.clash, line };
    const hasCommas = body.some(({ cells }) => cells.some((cell) => commaNumber.test(cell)));
    tables.push({
      separator: hasCommas ? ';' : ',',
      layout: 'rows',
      header,
      columns: named.columns,
      body,
      titles: title === '' ? [] : [{ line, text: title }],
    });
  }
  return done({ tables, rest, clash });
}
