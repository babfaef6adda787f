import type { CsvRow } from '../csv-lines.ts';

const summary =
  /^(?:overall |grand )?(?:avg|average|mean|median|min|minimum|max|maximum|total|totals|sum|subtotal|std\.? ?dev|st\.? ?dev|standard deviation|range|spread|count|mittelwert|durchschnitt|summe|gesamt|moyenne|mittel|mw|\u00D8|total g\u00E9n\u00E9ral|media|promedio|gemiddelde|totaal)(?: (?:level|power|value|of all))?\s*\.?:?$/i;

/**
 * Whether a row sums up the ones above it: its first word is an average, a total, a least or a greatest.
 * @returns  true for a row that is no reading, whatever numbers stand in it
 * @source   common practice, no published source; the words of spreadsheets
 */
export function isSummary(row: CsvRow): boolean {
  let first = row.cells[0];
  if (first === '') first = row.cells.find((cell) => cell !== '');
  // A row that begins with a digit or a sign is none.
  if (first === undefined || first.charCodeAt(0) < 65) return false;
  return first.length < 40 && summary.test(first);
}
