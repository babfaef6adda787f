import type { NotedLine } from '../csv-lines.ts';
import { type FrequencyUnit, frequencyUnitOf } from '../frequency-unit.ts';
import { type Parts, partsIn } from '../header-words.ts';
import { type LevelUnit, levelUnitOf } from '../level-unit.ts';

/** What titles and comments say of the units below them. Null where they name none, or two. */
export type ProseUnits = Readonly<{
  frequency: FrequencyUnit | null;
  level: LevelUnit | null;
  parts: Parts;
}>;

/** A unit that stands by itself; behind a number it belongs to that number ("at 870 MHz"). */
const standing = /(?<!\d[.,]?\s?)(?<![A-Za-z])(?:[kmg]?hz|db[m\u00B5\u03BCu]v|dbm)(?![A-Za-z])/gi;

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
      if (level !== null) levels.add(level);
    }
    if (/level|power|dbm|dbu|db\u00B5/i.test(text) && parts === 1) parts = partsIn(text);
  }
  const only = <T>(found: Set<T>): T | null => (found.size === 1 ? ([...found][0] ?? null) : null);
  return { frequency: only(frequencies), level: only(levels), parts };
}
