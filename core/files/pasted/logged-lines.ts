import type { CsvRow, NotedLine } from '../csv-lines.ts';
import { frequencyUnitOf } from '../frequency-unit.ts';
import { headerWord, saysOtherwise } from '../header-words.ts';
import { levelUnitOf } from '../level-unit.ts';
import { columnsOf, type Table } from './table.ts';

/** A text of more lines is no paste. */
const MOST_LINES = 20_000;
const LONGEST = 300;

/** The time of day that begins a line of a log, with a day before it or not, in brackets or not. */
const stamp =
  /^\[?(?:\d{4}-\d\d-\d\d[T ,]+|\d{1,2}[./]\d{1,2}[./]\d{2,4}[ ,]+)?\d{1,2}:\d\d(?::\d\d(?:[.,]\d{1,6})?)?(?:\s?Z|\s?[+-]\d\d:?\d\d)?\]?(?=[\s|,;:-])[\s|,;:-]*/;

/** A number with its unit; what stands before it must part it from everything else. */
const measured =
  /(?<=^|[\s=:|(\]])([+\-\u2212]?\d+(?:[.,]\d+)?) ?([kmg]?hz|db[m\u00B5\u03BCu]v|dbm|db|[m\u00B5\u03BCu]v)(?![\w/])/gi;
/** A dash that stands alone before a number may be a minus, or a range. */
const loneDash = /[-\u2010-\u2015\u2212~\u00B1]\s+$/;
const unlocked = /\b(?:not locked|unlocked|no lock|no signal|no carrier|not acquired)\b/i;
/** The number of a channel, with the word that says so. */
const channel = /(?<=^|[\s|(])(?:ch|chan|channel|kanal|canal|k|no|nr|#)[ .:=]*(\d{1,4})(?=$|[\s|,;:)])/i;
/** A value of something else, told by its name. */
const otherValue = /(?<=^|[\s|,;])([a-z][\w]*)=(?:"[^"]*"|[^\s|,;]+)/gi;
const modulation = /\b(?:\d{1,4}[- ]?qam|qam[- ]?\d{1,4}|ofdm|sc-?qam|qpsk)\b/gi;

/** Words that change nothing of what the numbers beside them are. */
const harmless = new Set(
  (
    'at on is of in to info debug notice level levels lvl power pwr pegel l p freq frequency frequenz f mer snr ok locked ' +
    'lock read reading got measured channel ch chan carrier pilot hz mhz tuned tune ds downstream rx received receive'
  ).split(' '),
);
/** Words after which a level is not what was read there. */
const otherwise =
  /^(?:us|tx|up|upstream|sent|transmit\w*|max\w*|min\w*|avg|average|mean|limit|target|noise|floor|design|expected|nominal|ref\w*|spur|image|adjacent|before|after|was|old|previous|delta|diff|change\w*|error|offset|loss|gain|threshold|alarm|from|to|and|or|not?)$/i;

type Reading = Readonly<{
  line: number;
  label: string;
  frequency: string;
  level: string;
  mer: string;
  lock: string;
}>;

/** The words of a line that are neither its values nor known to change nothing. */
function wordsOf(rest: string): string[] {
  return (rest.toLowerCase().match(/[\p{L}\d][\p{L}\d.,+_-]*/gu) ?? []).filter((word) => !harmless.has(word));
}

type Read = Readonly<{ reading: Reading; words: string }> | 'other' | null;

/** What one line says: a reading, something else, or null where it is not certain. */
function readingIn(line: string, number: number): Read {
  const began = stamp.exec(line)?.[0];
  if (began === undefined || line.length > LONGEST) return null;
  const said = line.slice(began.length);
  const values = [...said.matchAll(measured)].map((match) => ({
    text: `${match[1]} ${match[2]}`,
    unit: match[2] ?? '',
    isLone: loneDash.test(said.slice(0, match.index)),
  }));
  const levels = values.filter(({ unit }) => levelUnitOf(unit) !== null);
  const frequencies = values.filter(({ unit }) => frequencyUnitOf(unit) !== null);
  const ratios = values.filter(({ unit }) => /^db$/i.test(unit));
  const isUnlocked = unlocked.test(said);
  // A level's letters without a level before them are one that can't be read.
  const mentions = /db(?:m|[m\u00B5\u03BCu]v)(?!\w)|[kmg]hz\b/i.test(said);
  if (levels.length === 0 && frequencies.length === 0) return mentions ? null : 'other';
  const [frequency, second] = frequencies;
  const [level, other] = levels;
  if (frequency === undefined || second !== undefined || other !== undefined || ratios.length > 1)
    return null;
  if (values.some(({ isLone }) => isLone)) return null;
  // Megavolts, and what stands for no unit that is known here; a log's dBm names no impedance.
  if (values.length !== levels.length + frequencies.length + ratios.length) return null;
  // A bare dB may be a pad, a gain or a loss.
  if (ratios.length > 0 && !/\b(?:rx)?(?:mer|snr)\b/i.test(said)) return null;
  if ((level === undefined) !== isUnlocked) return null;
  const label = channel.exec(said)?.[1] ?? '';
  const rest = said
    .replace(measured, ' ')
    .replace(unlocked, ' ')
    .replace(channel, ' ')
    .replace(modulation, ' ')
    .replace(otherValue, (_all, key: string) => (headerWord(key).role === null ? ` ${key} ` : ' \u0000 '));
  // A name of a level or a frequency with another value than one with its unit.
  if (rest.includes('\u0000')) return null;
  const words = wordsOf(rest);
  if (words.some((word) => otherwise.test(word) || saysOtherwise(word) || /^[+-]?\d/.test(word))) return null;
  const reading = {
    line: number,
    label,
    frequency: frequency.text,
    level: level?.text ?? '',
    mer: ratios[0]?.text ?? '',
    lock: isUnlocked ? 'not locked' : '',
  };
  return { reading, words: words.join(' ') };
}

const heads = ['channel', 'frequency', 'level', 'mer', 'lock'] as const;

export type LoggedTable = Readonly<{ table: Table; rest: readonly NotedLine[] }>;

/**
 * The readings of a log: lines that begin with a time, each with one frequency and one level, both with their units.
 * @param text  plain, line feeds only
 * @returns  null where a line has no time, or has a frequency or a level and is not certain: two of them, one without a
 *           unit, words that would make it something else, or words that come and go from line to line. Lines with
 *           neither are told of
 * @source   contract, section 1; the forms are common practice, no published source
 */
export function loggedTable(text: string): LoggedTable | null {
  const lines = text.split('\n');
  if (lines.length > MOST_LINES || !stamp.test(lines.find((line) => line.trim() !== '')?.trim() ?? ''))
    return null;
  const readings: Reading[] = [];
  const rest: NotedLine[] = [];
  let words: string | null = null;
  for (const [i, line] of lines.entries()) {
    const bare = line.trim();
    if (bare === '') continue;
    const read = readingIn(bare, i + 1);
    if (read === null) return null;
    if (read === 'other') {
      rest.push({ line: i + 1, text: bare.slice(0, 200) });
      continue;
    }
    if (words !== null && words !== read.words) return null;
    words = read.words;
    readings.push(read.reading);
  }
  if (!readings.some(({ level }) => level !== '')) return null;
  const used = heads.filter((head) =>
    readings.some((one) => one[head === 'channel' ? 'label' : head] !== ''),
  );
  const body: readonly CsvRow[] = readings.map((one) => ({
    line: one.line,
    cells: used.map((head) => one[head === 'channel' ? 'label' : head]),
  }));
  const header = { line: readings[0]?.line ?? 1, cells: used };
  const { columns } = columnsOf(header);
  return { table: { separator: ' ', layout: 'rows', header, columns, body, titles: [] }, rest };
}
