import type { LevelRow } from '../line/level-row.ts';
import type { Result } from '../result.ts';
import { readSweepCsv, type Told, tablesOfSweep } from './sweep-csv.ts';

/** Two readings of one file give the same number of hertz. */
const SAME_MHZ = 1e-6;

/**
 * What a person may have said of a file, for reading it again where nobody noted it. Which level unit it was changes no
 * word of modulation, so that one stands for all.
 */
const tellings: readonly Told[] = [
  {},
  { levelUnit: 'dBmV' },
  ...(['MHz', 'kHz', 'Hz', 'GHz'] as const).map((frequencyUnit) => ({
    frequencyUnit,
    levelUnit: 'dBmV' as const,
  })),
];

const answers = (rows: readonly LevelRow[], frequenciesMhz: readonly number[]): boolean =>
  rows.length === frequenciesMhz.length &&
  rows.every(({ frequencyMhz }, i) => Math.abs((frequencyMhz ?? -1) - (frequenciesMhz[i] ?? -2)) < SAME_MHZ);

/**
 * What each reading of a kept sweep is modulated with, from the file that it was taken from. That file is read in every
 * way that a person may have asked for, until one gives exactly the frequencies which were kept.
 * @param text            the file as kept
 * @param fileName        its name
 * @param frequenciesMhz  of the readings, in their order
 * @returns  a word for each, undefined where the file has none; null where no way of reading gives these readings
 * @source   contract, section 1: no word is put to a row that it does not belong to
 */
export function modulationsOf(
  text: string,
  fileName: string,
  frequenciesMhz: readonly number[],
): readonly (string | undefined)[] | null {
  const wordsIn = (rows: readonly LevelRow[]) => {
    const named = rows.filter(({ frequencyMhz }) => frequencyMhz !== null);
    return answers(named, frequenciesMhz) ? named.map(({ modulation }) => modulation) : null;
  };
  for (const told of tellings) {
    const whole = readSweepCsv(text, fileName, told);
    const found = whole.ok ? wordsIn(whole.value.rows) : null;
    if (found !== null) return found;
    const each = tablesOfSweep(text, fileName, told);
    const read: readonly Result<Readonly<{ rows: readonly LevelRow[] }>>[] = each.ok ? each.value.read : [];
    for (const table of read.length > 1 ? read : []) {
      const words = table.ok ? wordsIn(table.value.rows) : null;
      if (words !== null) return words;
    }
  }
  return null;
}
