import { done, type Result, refuse } from '../../result.ts';
import type { NotedLine } from '../csv-lines.ts';
import type { Role } from '../header-words.ts';
import { jsonTables } from './json-tables.ts';
import { beginsAsJson } from './json-tree.ts';
import { loggedTable } from './logged-lines.ts';
import { clashRefusal, type TableRefusal, type Tables } from './tables.ts';
import { walkedTables } from './walked-names.ts';

/**
 * The tables of a text in which no separator parts the cells: names with an index and a value each, or a log.
 * @param text      plain, line feeds only
 * @param comments  that stood in it
 * @param needed    the columns without which a table is no use
 * @param fileName  named in a refusal
 * @returns  null where the text is neither; refused where a name has two values, or two names are a level
 * @source   contract, section 1
 */
export function tablesInLines(
  { text, comments }: Readonly<{ text: string; comments: readonly NotedLine[] }>,
  needed: readonly Role[],
  fileName: string,
): Result<Tables, TableRefusal> | null {
  const walked = walkedTables(text, needed, fileName);
  if (walked !== null) {
    if (!walked.ok) return walked;
    const { tables, rest } = walked.value;
    const clash = clashRefusal(walked.value, fileName);
    return (
      clash ?? done({ separator: 'names with an index', tables, comments, footers: [], rest, stray: null })
    );
  }
  const logged = needed.includes('level') ? loggedTable(text) : null;
  if (logged === null) return null;
  return done({
    separator: 'the words of a log',
    tables: [logged.table],
    comments,
    footers: [],
    rest: logged.rest,
    stray: null,
  });
}

/**
 * The tables of a JSON text.
 * @param text      as decoded
 * @param needed    the columns without which rows are no use
 * @param fileName  named in a refusal
 * @returns  null where the text does not begin as JSON; else its rows, or why they are none
 * @source   contract, section 1; RFC 8259
 */
export function tablesInJson(
  text: string,
  needed: readonly Role[],
  fileName: string,
): Result<Tables, TableRefusal> | null {
  if (!beginsAsJson(text)) return null;
  const read = jsonTables(text.replace(/\r\n?/g, '\n'), needed, fileName);
  if (read === null || !read.ok) return read;
  const { tables, rest } = read.value;
  const clash = clashRefusal(read.value, fileName);
  if (clash !== null) return clash;
  if (tables.length > 0)
    return done({ separator: 'the keys of JSON', tables, comments: [], footers: [], rest, stray: null });
  const [first] = rest;
  const among = first === undefined ? 'its keys' : `"${first.text.slice(0, 120)}"`;
  const missing = needed.map((role) => `a ${role}`).join(' and ');
  return refuse(
    'no-header',
    `${fileName}, line ${first?.line ?? 1}`,
    `no keys for ${missing} among ${among}; name them as in [{"frequency_mhz":57,"level_dbmv":36.1}]`,
  );
}
