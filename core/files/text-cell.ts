/** What a spreadsheet would take for a formula, behind any number of blanks and of our own escaping apostrophes. */
const formula = /^[\s']*[=+\-@\t\r\uFF1D\uFF0B\uFF0D\uFF20]/;

/**
 * A text for a CSV cell: on one line, harmless to a spreadsheet, quoted where it must be. Never for numbers: a leading
 * minus of a level is no formula.
 * @returns  the cell as it stands in the file
 * @source   RFC 4180; OWASP, "CSV Injection": a leading apostrophe before = + - @ TAB CR and their full-width forms
 */
export function textCell(text: string): string {
  const oneLine = text.replace(/[\r\n]+/g, ' ').replace(/(?!\t)\p{Cc}/gu, '');
  const safe = formula.test(oneLine) ? `'${oneLine}` : oneLine;
  return /[",;\t'#|]|^\s|\s$/.test(safe) ? `"${safe.replace(/"/g, '""')}"` : safe;
}

/**
 * The text of a cell that `textCell` wrote.
 * @param cell  without its quotes
 * @returns  the text
 * @source   the other half of `textCell`
 */
export const textOfCell = (cell: string): string =>
  cell.startsWith("'") && formula.test(cell.slice(1)) ? cell.slice(1) : cell;

/**
 * A line about a sweep for a comment: on one line, and harmless where a spreadsheet parts it into cells.
 * @returns  the text without its sign
 * @source   as `textCell`; a cell begins behind every separator
 */
export const commentText = (text: string): string =>
  text
    .replace(/\s+/g, ' ')
    .replace(/\p{Cc}/gu, '')
    .replace(/"/g, "'")
    .replace(/([,;|])([\s']*)(?=[=+\-@\uFF1D\uFF0B\uFF0D\uFF20])/g, "$1$2'")
    .trim();
