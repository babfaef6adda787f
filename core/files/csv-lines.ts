import papa from 'papaparse';
import { done, type Result, refuse } from '../result.ts';
import { unheld } from './cell-marks.ts';
import { undressed } from './pasted/dressing.ts';
import { withoutMarks } from './pasted/marked-up.ts';
import { vastRefusal } from './text-size.ts';

/**
 * One row of a table as it stands in the file: its cells trimmed, and the 1-based line on which it begins. `place` is
 * the 1-based cell on its lines where a table lies on its side.
 */
export type CsvRow = Readonly<{ line: number; cells: readonly string[]; place?: number }>;

/** A line of the file and what it says. */
export type NotedLine = Readonly<{ line: number; text: string }>;

export type PlainText = Readonly<{
  /** Line feeds only, comments and ruled lines emptied, so that a row's line stays its line. */
  text: string;
  /** What the comment lines say, without their sign. */
  comments: readonly NotedLine[];
  /** What a first line `sep=;` says, else null. */
  toldSeparator: string | null;
  /** True where the last line is not ended: the file may have been cut. */
  unended: boolean;
}>;

/** Control characters but tab, line feed, vertical tab and form feed. */
const notText = /[^\P{Cc}\n\t\f\v]/u;

const lineOf = (text: string, index: number): number => text.slice(0, index).split('\n').length;

/** A line drawn between rows: of Markdown, of a box, of a printed table. */
const ruled =
  /^[\s|+:=_\u2500-\u257F-]*(?:[-=_]{3}|[\u2500\u2501\u2550]{2}|[|+:]\s*-{1,2}\s*[|+:])[\s|+:=_\u2500-\u257F-]*$/;
/** A heading "#" of a column of numbers is no comment. */
const headedByNumber = /^\s*#\s*[,;|\t]/;

/** Told by its first sign, so that most lines are looked at no further. */
const mayBeNoRow = /^\s*[#"|+:=_\u2500-\u257F-]/;
/** The same for any line of a text. */
const anyNoRow = /^[^\S\n]*[#"|+:=_\u2500-\u257F-]/m;
/** As a spreadsheet keeps a comment line that has a separator in it. */
const quotedComment = /^"#+([^"]*)"[;,\t]*$/;

/** Empties lines that begin with # and lines that are drawn, but not inside a quoted cell. */
function withoutComments(text: string): Readonly<{ bare: string; comments: NotedLine[] }> {
  if (!anyNoRow.test(text)) return { bare: text, comments: [] };
  let quoted = false;
  const comments: NotedLine[] = [];
  const lines = text.split('\n');
  for (const [i, line] of lines.entries()) {
    if (!quoted && mayBeNoRow.test(line)) {
      const comment = /^\s*#+(.*)$/.exec(line) ?? quotedComment.exec(line);
      if (comment !== null && !headedByNumber.test(line)) {
        comments.push({ line: i + 1, text: (comment[1] ?? '').trim() });
        lines[i] = '';
        continue;
      }
      if (!line.includes(',') && ruled.test(line)) lines[i] = '';
    }
    if (line.includes('"') && (line.split('"').length - 1) % 2 === 1) quoted = !quoted;
  }
  return { bare: lines.join('\n'), comments };
}

/**
 * A file's text made plain for reading a table: no byte order mark, line feeds only, no comments, no ruled lines.
 * @param text      as decoded from UTF-8
 * @param fileName  named in a refusal
 * @returns  the plain text, or a refusal of what is not text, not UTF-8, empty, or larger than any table of levels
 * @source   contract, section 1
 */
export function plainText(
  text: string,
  fileName: string,
): Result<PlainText, 'not-text' | 'empty' | 'too-many'> {
  const vast = vastRefusal(text, fileName);
  if (vast !== null) return vast;
  const bomless = text.replace(/^\uFEFF/, '');
  const unix = bomless.includes('\r') ? bomless.replaceAll('\r\n', '\n').replaceAll('\r', '\n') : bomless;
  const control = notText.exec(unix);
  if (control !== null) {
    const help = 'this is not a text file in UTF-8; save it as CSV in UTF-8';
    return refuse('not-text', `${fileName}, line ${lineOf(unix, control.index)}`, help);
  }
  const broken = unix.indexOf('\uFFFD');
  if (broken >= 0) {
    const help = 'a character here is not UTF-8; save the file as CSV in UTF-8';
    return refuse('not-text', `${fileName}, line ${lineOf(unix, broken)}`, help);
  }
  const told = /^\s*"?sep=([,;\t])"?[ ]*(?=\n|$)/i.exec(unix);
  const { bare, comments } = withoutComments(
    withoutMarks(undressed(told === null ? unix : unix.replace(/^[^\n]*/, ''))),
  );
  if (bare.trim() === '')
    return refuse('empty', fileName, 'the file is empty; a sweep begins with frequency_mhz,level_dbmv');
  return done({ text: bare, comments, toldSeparator: told?.[1] ?? null, unended: !unix.endsWith('\n') });
}

/**
 * Splits plain text into rows.
 * @param text       from `plainText`
 * @param separator  one character
 * @param fileName   named in a refusal
 * @returns  every row that is not blank, or a refusal with the line of a quote that does not close
 * @source   RFC 4180; contract, section 1
 */
export function splitRows(text: string, separator: string, fileName: string): Result<CsvRow[], 'bad-quotes'> {
  const bare = text.includes('=') ? (cell: string) => unheld(cell.trim()) : (cell: string) => cell.trim();
  // Without a quote there is nothing to parse.
  if (!text.includes('"')) {
    const rows: CsvRow[] = [];
    for (const [i, line] of text.split('\n').entries()) {
      const cells = line.split(separator);
      let isBlank = true;
      for (let k = 0; k < cells.length; k++) {
        const cell = bare(cells[k] ?? '');
        cells[k] = cell;
        if (cell !== '') isBlank = false;
      }
      if (!isBlank) rows.push({ line: i + 1, cells });
    }
    return done(rows);
  }
  const { data, errors } = papa.parse(text, { delimiter: separator, newline: '\n', skipEmptyLines: false });
  const lines: number[] = [];
  let line = 1;
  for (const cells of data) {
    lines.push(line);
    line += 1 + cells.reduce((sum, cell) => sum + cell.split('\n').length - 1, 0);
  }
  const problem = errors.find((one) => one.type === 'Quotes');
  if (problem !== undefined) {
    const at = lines[problem.row ?? 0] ?? 1;
    return refuse('bad-quotes', `${fileName}, line ${at}`, 'a quoted cell does not end; close its quote');
  }
  const rows = data.map((cells, i) => ({ line: lines[i] ?? 1, cells: cells.map(bare) }));
  return done(rows.filter((row) => row.cells.some((cell) => cell !== '')));
}

/**
 * The first row that is not blank, without reading the rest: to try a separator on it.
 * @param text       from `plainText`
 * @param separator  one character
 * @returns  its trimmed cells and its line; no cells where there is no row
 * @source   RFC 4180; contract, section 1
 */
export function firstRow(text: string, separator: string): CsvRow {
  const start = text.search(/\S/);
  if (start < 0) return { line: 1, cells: [] };
  // Only line breaks are passed over: a tab or a blank in front may part an empty first cell.
  const from = text.lastIndexOf('\n', start) + 1;
  const settings = { delimiter: separator, newline: '\n', skipEmptyLines: false, preview: 1 } as const;
  const [cells = []] = papa.parse(text.slice(from), settings).data;
  return { line: lineOf(text, from), cells: cells.map((cell) => cell.trim()) };
}
