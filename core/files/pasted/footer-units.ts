import type { NotedLine } from '../csv-lines.ts';
import { frequencyUnitOf } from '../frequency-unit.ts';
import { headerWord } from '../header-words.ts';
import { levelUnitOf } from '../level-unit.ts';

/** More lines of units stand below no table. */
const MOST_LINES = 4;
const LONGEST = 120;

const unit = String.raw`(?:[kmg]?hz|db[m\u00B5\u03BCu]v|dbm|db|[m\u00B5\u03BCu]v)`;
/** "Levels in dBmV", "all frequencies MHz", "Freq: kHz", "SNR is given in dB". */
const clause = new RegExp(
  String.raw`^(?:all |the )?([a-z\u00C0-\u024F/ ]+?)(?: values?)?\s*(?:[:=]|,|\b(?:are |is )?(?:all )?(?:given |stated |measured |shown )?(?:in|en)\b|\b(?:are|is)\b)?\s*(${unit})(?: (?:at |@ ?|\()?(?:50|75) ?(?:ohms?|\u03A9|\u2126)\)?)?$`,
  'i',
);
const listed = new RegExp(
  String.raw`^(?:all )?(?:units?|einheit(?:en)?)\s*[:=]?\s+(${unit}(?:\s*(?:,|;|/|and|und)\s*${unit})*)$`,
  'i',
);
/** Of what is sent, or of one way only: not for us to take for the table above. */
const oneWay = /\b(?:up|down)stream\b|\b(?:us|ds|tx|rx)\b|\breturn\b|\bforward\b|transmit|sent|receive/i;

const isUnit = (word: string) =>
  frequencyUnitOf(word) !== null || levelUnitOf(word) !== null || /^db$/i.test(word);

/** Whether a clause gives its quantity the unit of that quantity. */
function agrees(words: string): boolean {
  const match = clause.exec(words.trim());
  if (match === null) return false;
  const [, quantity = '', written = ''] = match;
  const { role } = headerWord(quantity.trim().replace(/^frequenzen$/i, 'frequenz'));
  if (role === 'frequency') return frequencyUnitOf(written) !== null;
  if (role === 'level') return levelUnitOf(written) !== null;
  return role === 'mer' && /^db$/i.test(written);
}

/**
 * Whether a line says nothing but in which units the numbers above it are.
 * @param line  one line, in brackets or behind a star or not
 * @returns  false where a word of it says anything else
 * @source   contract, section 1: nothing is guessed silently; the wording is common practice, no published source
 */
export function saysUnitsOnly(line: string): boolean {
  const bare = line
    .trim()
    .replace(/^[*\u2020]+\s*/, '')
    .replace(/^\((.*)\)$/, '$1')
    .replace(/[.\s]+$/, '');
  if (bare === '' || bare.length > LONGEST || oneWay.test(bare)) return false;
  const list = listed.exec(bare)?.[1];
  if (list !== undefined) return list.split(/\s*(?:,|;|\/|\band\b|\bund\b)\s*/i).every(isUnit);
  return bare.split(/\s*(?:[,;]|\band\b|\bund\b)\s*/i).every(agrees);
}

export type Footed = Readonly<{ text: string; footers: readonly NotedLine[] }>;

/**
 * A text without the lines at its end that say nothing but units; every other line stays its line.
 * @param text  line feeds only
 * @returns  those lines, in their order; none where a table can't stand above them
 * @source   contract, section 1: units may stand beside the table
 */
export function withoutFooter(text: string): Footed {
  const whole = text.trimEnd();
  // Most files end with a row, and are looked at no further.
  if (!saysUnitsOnly(whole.slice(whole.lastIndexOf('\n') + 1))) return { text, footers: [] };
  const lines = text.split('\n');
  const footers: NotedLine[] = [];
  let at = lines.length - 1;
  for (; at > 0 && footers.length < MOST_LINES; at--) {
    const line = lines[at] ?? '';
    if (line.trim() === '') continue;
    if (!saysUnitsOnly(line)) break;
    footers.unshift({ line: at + 1, text: line.trim() });
    lines[at] = '';
  }
  const hasTable = footers.length > 0 && lines.slice(0, at + 1).some((line) => /\d/.test(line));
  return hasTable ? { text: lines.join('\n'), footers } : { text, footers: [] };
}
