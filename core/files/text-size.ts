import { type Refusal, refuse } from '../result.ts';
import { beginsAsJson } from './pasted/json-tree.ts';

/** A sweep of 1218 MHz in steps of 10 kHz has 121,800 rows; a line for each quantity, 1218 cells in steps of 1 MHz. */
const MOST_LINES = 150_000;
const LONGEST_LINE = 100_000;
/** JSON may stand in one line, whatever it holds. */
const LONGEST_JSON = 10_000_000;
/** As many rows as a spreadsheet has, most of them blank. */
const MOST_LINE_ENDS = 1_100_000;

/** Neither a blank nor a tab, a comma or a semicolon. */
const says = (code: number): boolean => code > 32 && code !== 44 && code !== 59;

/**
 * What no sweep, plan or measurement is as long or as wide as is refused before it is looked at, so that a large file
 * that was taken by mistake keeps nobody waiting.
 * @param text      as decoded
 * @param fileName  named in the refusal
 * @returns  null where the size is one that a table may have; lines of nothing but separators count little
 * @source   common practice, no published source
 */
export function vastRefusal(text: string, fileName: string): Refusal<'too-many'> | null {
  const longest = beginsAsJson(text) ? LONGEST_JSON : LONGEST_LINE;
  let lines = 0;
  let ends = 0;
  // Line ends are looked for; of a line no more than its first signs are looked at.
  let nextCr = text.indexOf('\r');
  for (let from = 0; from <= text.length; ) {
    const lf = text.indexOf('\n', from);
    if (nextCr >= 0 && nextCr < from) nextCr = text.indexOf('\r', from);
    const at = nextCr >= 0 && (lf < 0 || nextCr < lf) ? nextCr : lf;
    const end = at < 0 ? text.length : at;
    ends++;
    for (let i = from; i < end; i++)
      if (says(text.charCodeAt(i))) {
        lines++;
        break;
      }
    if (end - from > longest)
      return refuse(
        'too-many',
        `${fileName}, line ${ends}`,
        `${end - from} characters in one line are no row of a table; export one sweep, a row for each frequency`,
      );
    from = end + 1;
  }
  return lines <= MOST_LINES && ends <= 2 * MOST_LINE_ENDS
    ? null
    : refuse(
        'too-many',
        fileName,
        `${lines <= MOST_LINES ? ends : lines} lines are more than any sweep has; keep the sweep that counts`,
      );
}
