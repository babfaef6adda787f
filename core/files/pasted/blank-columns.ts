import type { CsvRow } from '../csv-lines.ts';
import { headerWord } from '../header-words.ts';

type Span = Readonly<{ text: string; from: number; to: number }>;

/** Runs of text parted by two blanks or more; one blank stays inside a cell. */
const parts = (line: string): Span[] =>
  [...line.matchAll(/\S+(?: \S+)*/g)].map((match) => ({
    text: match[0],
    from: match.index,
    to: match.index + match[0].length,
  }));

/** A number and its unit, a state and a modulation are one cell though a blank parts them. */
const oneCell =
  /[+-]?[\d.,]+ (?:tenths? )?(?:[kmg]?hz|hertz|db(?:[m\u00B5\u03BCu]v|m)?|[m\u00B5\u03BCu]v|q?am|qam)(?![a-z0-9])|qam \d+|(?:not|un) ?locked|[\d.,]+ (?:-|\u2013|~|to) [\d.,]+(?: [kmg]?hz)?|n\/a|\S+/gi;
const words = (line: string): Span[] =>
  [...line.matchAll(oneCell)].map((match) => ({
    text: match[0],
    from: match.index,
    to: match.index + match[0].length,
  }));

const isUnit = (word: string) =>
  /^[([]?(?:[kmg]?hz|db(?:[m\u00B5\u03BCu]v|m)?|[m\u00B5\u03BCu]v|ohms?|\u03A9)[)\]]?$/i.test(word);
/** Words that belong to the one before them though they name no column by themselves. */
const tail =
  /^(id|status|state|type|level|levels|ratio|number|no|order|codewords?|errors?|rate|width|range|error|profile|power)$/i;

/** Headings parted by single blanks: each word is one, but for units and for words that are told of the one before. */
function headings(line: string): Span[] {
  const found: Span[] = [];
  for (const match of line.matchAll(/\([^)]*\)|\[[^\]]*\]|[^\s([]+/g)) {
    const span = { text: match[0], from: match.index, to: match.index + match[0].length };
    const last = found.at(-1);
    const joined = last === undefined ? '' : `${last.text} ${span.text}`;
    const belongs =
      last !== undefined &&
      (isUnit(span.text) ||
        /^[([]/.test(span.text) ||
        (tail.test(span.text) && !/^(power|level)s?$/i.test(span.text)) ||
        (headerWord(joined).role !== null &&
          headerWord(span.text).role === headerWord(joined).role &&
          headerWord(last.text).role === null) ||
        (headerWord(joined).role !== null &&
          headerWord(joined).role === headerWord(last.text).role &&
          tail.test(span.text)));
    if (belongs && last !== undefined)
      found[found.length - 1] = { text: joined, from: last.from, to: span.to };
    else found.push(span);
  }
  return found;
}

const textsOf = (spans: readonly Span[]): string[] => spans.map(({ text }) => text);

/** Each cell under the one heading that it overlaps; null where two overlap one, or one overlaps none or two. */
function byPlace(cells: readonly Span[], header: readonly Span[]): string[] | null {
  const under = header.map(() => '');
  let taken = -1;
  for (const cell of cells) {
    const over = header.flatMap((head, i) => (cell.from < head.to && head.from < cell.to ? [i] : []));
    const [only] = over;
    if (only === undefined || over.length > 1 || only <= taken) return null;
    under[only] = cell.text;
    taken = only;
  }
  return under;
}

/** A row's cells under the headings: by their count, else by their place. A row that fits neither keeps its own parts. */
function cellsUnder(line: string, header: readonly Span[]): string[] {
  const apart = parts(line);
  if (apart.length === header.length) return textsOf(apart);
  const single = words(line);
  if (single.length === header.length) return textsOf(single);
  return byPlace(apart, header) ?? byPlace(single, header) ?? textsOf(apart);
}

const isNumber = (cell: string) => /^[+-]?[\d.,]*\d/.test(cell);
/** What stands between a level and its frequency in a list, and says nothing. */
const isLink = (cell: string) => /^(?:@|at)$/i.test(cell);

/**
 * Without a heading: parted by every blank where nothing but numbers with their units stands in the line, or behind
 * the name of a quantity.
 */
function bareCells(line: string): string[] {
  const single = textsOf(words(line)).filter((cell, i) => i === 0 || !isLink(cell));
  if (single.every(isNumber)) return single;
  const first = single.findIndex(isNumber);
  const name = single.slice(0, Math.max(first, 0)).join(' ');
  // A sign behind the name may belong to the number.
  const isNamed = /^[A-Za-z\u00C0-\u024F].*[A-Za-z\u00C0-\u024F)\]:]$/.test(name);
  return isNamed && single.length - first > 1 && single.slice(first).every(isNumber)
    ? [name, ...single.slice(first)]
    : textsOf(parts(line));
}

const names = (spans: readonly Span[], role: 'frequency' | 'level') =>
  spans.some(({ text }) => headerWord(text).role === role);
const isHeading = (spans: readonly Span[]) =>
  spans.every(({ text }) => !/^[+-]?[\d.]/.test(text)) && names(spans, 'frequency') && names(spans, 'level');

/**
 * Splits text whose columns are parted by blanks: aligned with any number of them, or one by one.
 * @param text  plain, without tabs
 * @returns  every row that is not blank; below a heading, cells by their count, else by the place under it, so that an
 *           empty cell moves nothing; a row whose cells fit no heading has another number of them
 * @source   common practice, no published source
 */
export function splitAtBlanks(text: string): CsvRow[] {
  let header: readonly Span[] | null = null;
  const rows: CsvRow[] = [];
  for (const [i, line] of text.split('\n').entries()) {
    if (line.trim() === '') continue;
    // No heading is as long as this; its words are tried in pairs.
    if (line.length < 1000 && (header === null ? !/^\s*[+-]?\d/.test(line) : !/\d/.test(line))) {
      const apart = parts(line);
      // Below a heading, a line of nothing but units belongs to it.
      const isUnits: boolean = header !== null && apart.every(({ text: word }) => isUnit(word));
      const heading: readonly Span[] | undefined = isUnits
        ? undefined
        : [apart, headings(line)].find(isHeading);
      if (heading !== undefined) {
        header = heading;
        rows.push({ line: i + 1, cells: textsOf(heading) });
        continue;
      }
    }
    // A line of words without a number is a title or a foot, whole.
    if (!/\d/.test(line) && parts(line).length === 1) rows.push({ line: i + 1, cells: [line.trim()] });
    else if (header === null) rows.push({ line: i + 1, cells: bareCells(line) });
    else rows.push({ line: i + 1, cells: cellsUnder(line, header) });
  }
  return rows;
}
