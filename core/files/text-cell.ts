/** What a spreadsheet would take for a formula, behind any number of our own escaping apostrophes. */
const formula = /^'*[=+\-@\t\r]/;

/**
 * A text for a CSV cell: on one line, harmless to a spreadsheet, quoted where it must be. Never for numbers: a leading
 * minus of a level is no formula.
 * @returns  the cell as it stands in the file
 * @source   RFC 4180; OWASP, "CSV Injection": a leading apostrophe before = + - @ TAB CR
 */
export function textCell(text: string): string {
  const oneLine = text.replace(/[\r\n]+/g, ' ').replace(/(?!\t)\p{Cc}/gu, '');
  const safe = formula.test(oneLine) ? `'${oneLine}` : oneLine;
  return /[",;\t']|^\s|\s$/.test(safe) ? `"${safe.replace(/"/g, '""')}"` : safe;
}

/**
 * The text of a cell that `textCell` wrote.
 * @param cell  without its quotes
 * @returns  the text
 * @source   the other half of `textCell`
 */
export const textOfCell = (cell: string): string => (/^''*[=+\-@\t\r]/.test(cell) ? cell.slice(1) : cell);
