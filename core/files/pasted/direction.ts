import type { Table } from './table.ts';

export type Direction = 'downstream' | 'upstream';

/** What is received, and what is sent, in the languages in which modems print it. */
const received =
  /downstream|\bds\b|\breceived?\b|\brx\b|empfang|descend(ant|ente)|\bbajada\b|stroomafwaarts|\bodbi[o\u00F3]r|pobierani/i;
const sent =
  /upstream|\bus\b|\btransmit(ted)?\b|\btx\b|ranging|symbol rate|senderichtung|sende-?(pegel|leistung)|gesendet|\bmontante?s?\b|\bascendente|\bsubida\b|stroomopwaarts|nadawani|wysy\u0142ani/i;
const forward = /forward|vorw\u00E4rts/i;
const reverse = /\breturn\b|reverse|r\u00FCck(kanal|weg)/i;
const upModulation = /\b(a-?tdma|s-?cdma|tdma|ofdma)\b/i;

function directionIn(text: string): Direction | null {
  const isDown = received.test(text) || forward.test(text);
  const isUp = sent.test(text) || reverse.test(text);
  return isDown === isUp ? null : isDown ? 'downstream' : 'upstream';
}

/**
 * Which way the words of a name say: "dsPower", "docsIfUpChannelFrequency".
 * @returns  null where they say neither, or both
 * @source   RFC 4546 for the names of its tables, from memory; the others are common practice
 */
export function directionOfWords(name: string): Direction | null {
  const words = name.replace(/([a-z])([A-Z])/g, '$1 $2').replaceAll('_', ' ');
  if (/\b(?:if|cm) ?(?:down|up) channel/i.test(words))
    return /\bdown\b/i.test(words) ? 'downstream' : 'upstream';
  return directionIn(words);
}

/**
 * Whether a table's levels are those that a modem sends, so that they are no readings of a line. A return that somebody
 * measured is received all the same.
 * @returns  true only where its title, its headings or its modulations say so
 * @source   common practice, no published source; the words of DOCSIS
 */
export const isSent = (table: Table): boolean =>
  directionOf(table) === 'upstream' &&
  (sent.test([...table.titles.map(({ text }) => text), ...table.header.cells].join(' | ')) ||
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
