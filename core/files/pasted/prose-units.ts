import type { NotedLine } from '../csv-lines.ts';
import { type FrequencyUnit, frequencyUnitOf } from '../frequency-unit.ts';
import { type Parts, partsIn } from '../header-words.ts';
import { isVoltage, type LevelUnit, levelUnitOf } from '../level-unit.ts';

/** What titles and comments say of the units below them. Null where they name none, or two. */
export type ProseUnits = Readonly<{
  frequency: FrequencyUnit | null;
  level: LevelUnit | null;
  /** Whether they name 50 ohm. */
  isIn50Ohm: boolean;
  parts: Parts;
}>;

/** A unit that stands by itself; behind a number it belongs to that number ("at 870 MHz"). */
const standing =
  /(?<!\d[.,]?\s?)(?<![A-Za-z])(?:[kmg]?hz|db[m\u00B5\u03BCu]v|dbm|(?<!\bdb\W*)(?:[m\u00B5\u03BCu]v|(?:milli|micro|mikro)volts?))(?![A-Za-z])/gi;
/** What makes a voltage another one than a level's: a peak, an open circuit, a field. Decibels refer to it. */
const otherVoltage = /\bpeak|\bpk\b|\bp[-\s]?p\b|\bemf\b|\bopen\b|v\s*\/|\bper\b|\bdecibels?\b/i;
const in50Ohm = /(?<![\d.,])50[\s-]*(?:ohms?\b|\u03A9|\u2126)|imped[a-z]+[^\d]{0,12}50(?![\d.,])/i;
const in75Ohm = /(?<![\d.,])75[\s-]*(?:ohms?\b|\u03A9|\u2126)/i;

/**
 * Whether lines of words name an impedance of 50 ohm.
 * @param lines  anywhere beside a table
 * @returns  true also where they name another one as well
 * @source   common practice, no published source
 */
export const saysIn50Ohm = (lines: readonly NotedLine[]): boolean =>
  lines.some(({ text }) => in50Ohm.test(text));

/**
 * What lines of words say of units, where they name exactly one.
 * @param lines  titles before a table, comments
 * @returns  the units; nulls where nothing is certain
 * @source   contract, section 1; common practice, no published source
 */
export function unitsInProse(lines: readonly NotedLine[]): ProseUnits {
  const frequencies = new Set<FrequencyUnit>();
  const levels = new Set<LevelUnit>();
  let parts: Parts = 1;
  for (const { text } of lines) {
    for (const [word] of text.matchAll(standing)) {
      const frequency = frequencyUnitOf(word);
      const level = levelUnitOf(word);
      if (frequency !== null) frequencies.add(frequency);
      if (level !== null && !(isVoltage(level) && otherVoltage.test(text))) levels.add(level);
    }
    if (/level|power|dbm|dbu|db\u00B5/i.test(text) && parts === 1) parts = partsIn(text);
  }
  const only = <T>(found: Set<T>): T | null => (found.size === 1 ? ([...found][0] ?? null) : null);
  const isIn50Ohm = saysIn50Ohm(lines);
  const isBoth = isIn50Ohm && lines.some(({ text }) => in75Ohm.test(text));
  const said = only(levels);
  const level = isIn50Ohm && said === 'dBm' ? (isBoth ? null : 'dBm50') : said;
  return { frequency: only(frequencies), level, isIn50Ohm, parts };
}
