import { done, type Result, refuse } from '../../result.ts';
import type { CsvRow } from '../csv-lines.ts';
import type { Table } from './table.ts';

const tail = String.raw`(?:[\s_-]*(?:ch(?:an(?:nel)?)?|channel)?[\s_#-]*\d*)?$`;
/** A bare "up" or "down" is said of a lock as well. */
const received = new RegExp(`^(?:downstream|ds|rx|received?|empfang)${tail}`, 'i');
const sent = new RegExp(`^(?:upstream|us|tx|transmit(?:ted)?|sent|gesendet)${tail}`, 'i');
const forward = new RegExp(`^(?:forward|fwd)${tail}`, 'i');
const back = new RegExp(`^(?:return|reverse|rev)${tail}`, 'i');

type Said = 'received' | 'sent' | 'forward' | 'return';
function saidBy(cell: string): Said | null {
  if (cell.length > 30) return null;
  if (received.test(cell)) return 'received';
  if (sent.test(cell)) return 'sent';
  if (forward.test(cell)) return 'forward';
  return back.test(cell) ? 'return' : null;
}

/**
 * The rows of a table that say in a column that they are sent, where others of it say that they are received: what a
 * modem transmits is no reading of the line.
 * @param table     its columns certain
 * @param fileName  named in a refusal
 * @returns  those rows with the word that says so; refused where forward and return stand in one table, which are two
 *           sweeps
 * @source   contract, section 1: nothing is guessed silently; the words are common practice, no published source
 */
export function sentRows(
  table: Table,
  fileName: string,
): Result<ReadonlyMap<CsvRow, string>, 'two-directions'> {
  const rows = new Map<CsvRow, string>();
  if (table.layout === 'sides') return done(rows);
  const { frequency, level, mer } = table.columns;
  const numbers = new Set([frequency?.index, level?.index, mer?.index]);
  for (const index of table.header.cells.keys()) {
    if (numbers.has(index)) continue;
    const first = saidBy(table.body[0]?.cells[index] ?? '');
    // Every row of such a column says its way; most columns are looked at no further than their first cell.
    if (first === null) continue;
    const said = table.body.map((row) => saidBy(row.cells[index] ?? ''));
    const has = (one: Said) => said.includes(one);
    if ((has('forward') || has('received')) && has('return')) {
      const line = table.body[said.indexOf('return')]?.line ?? table.header.line;
      const help = 'forward and return stand in one table, and are two sweeps; keep one of them';
      return refuse('two-directions', `${fileName}, line ${line}`, help);
    }
    if (!has('sent') || !(has('received') || has('forward'))) continue;
    for (const [i, row] of table.body.entries())
      if (said[i] === 'sent') rows.set(row, row.cells[index] ?? '');
  }
  return done(rows);
}
