import type { Table } from './table.ts';

export type Direction = 'downstream' | 'upstream';

const down = /downstream|\bds\b|\breceived?\b|\brx\b|forward/i;
const up = /upstream|\bus\b|\btransmit(ted)?\b|\btx\b|\breturn\b|reverse|ranging|symbol rate/i;
const upModulation = /\b(a-?tdma|s-?cdma|tdma|ofdma)\b/i;

function directionIn(text: string): Direction | null {
  const isDown = down.test(text);
  return isDown === up.test(text) ? null : isDown ? 'downstream' : 'upstream';
}

/** Words of what a modem sends; a return that somebody measured is received all the same. */
const sentWords = /upstream|\bus\b|\btransmit(ted)?\b|\btx\b|ranging|symbol rate/i;

/**
 * Whether a table's levels are those that a modem sends, so that they are no readings of a line.
 * @returns  true only where its title, its headings or its modulations say so
 * @source   common practice, no published source; the words of DOCSIS
 */
export const isSent = (table: Table): boolean =>
  directionOf(table) === 'upstream' &&
  (sentWords.test([...table.titles.map(({ text }) => text), ...table.header.cells].join(' | ')) ||
    table.body.some((row) => row.cells.some((cell) => upModulation.test(cell))));

/**
 * Which way a table's signals go, as its title, its headings or its modulations say.
 * @returns  null where nothing says it
 * @source   common practice, no published source; the words of DOCSIS
 */
export function directionOf(table: Table): Direction | null {
  for (const { text } of table.titles.toReversed()) {
    const said = directionIn(text);
    if (said !== null) return said;
  }
  const byHeader = directionIn(table.header.cells.join(' | '));
  if (byHeader !== null) return byHeader;
  const byCells = table.body.slice(0, 20).map((row) => row.cells.join(' | '));
  if (byCells.some((cells) => upModulation.test(cells))) return 'upstream';
  return byCells.length > 0 && byCells.every((cells) => /^\W*downstream/i.test(cells)) ? 'downstream' : null;
}
