/** A limit's two ends, dB. */
type Band = Readonly<{ fromDb: number; toDb: number }>;

/** What a range test should give at 750 to 870 MHz. Common practice, no published source. */
export const RANGE_LIMITS = {
  up: { fromDb: 3, toDb: 5 },
  down: { fromDb: 5, toDb: 7 },
  total: { fromDb: 9.5, toDb: 11.5 },
} as const satisfies Record<string, Band>;

/** The band for which those limits are in use. */
export const RANGE_LIMITS_HOLD = { fromMhz: 750, toMhz: 870 } as const;

/** What a hand-held meter is good for between two readings, dB. Common practice, no published source. */
export const RANGE_UNCERTAINTY_DB = 0.5;

/** 3.1 + 6.4 is 9.5, though arithmetic may end a hair below it. */
const HAIR_DB = 1e-9;

export type RangeVerdict = 'pass' | 'undecided' | 'fail';
export type RangeTest = Readonly<{ verdict: RangeVerdict; upDb: number; downDb: number; totalDb: number }>;

const outsideDb = (valueDb: number, band: Band): number =>
  Math.max(band.fromDb - valueDb, valueDb - band.toDb, 0);

/**
 * Judges a range test.
 * @param upDb           how far the output rises above the set level, dB, not negative
 * @param downDb         how far it falls below it, dB, not negative
 * @param uncertaintyDb  of each of the three figures, dB, 0.5 unless told
 * @returns  `pass` when up, down and their sum are inside their limits; `undecided` when none of them is outside by more
 *           than the uncertainty; `fail` further out
 * @throws   RangeError on a figure that is negative or no number
 * @source   common practice, no published source; the three verdicts: guard bands after JCGM 106:2012
 */
export function rangeTest(
  upDb: number,
  downDb: number,
  uncertaintyDb: number = RANGE_UNCERTAINTY_DB,
): RangeTest {
  for (const db of [upDb, downDb, uncertaintyDb])
    if (!(db >= 0) || !Number.isFinite(db)) throw new RangeError(`${db} dB is no range`);
  const totalDb = upDb + downDb;
  const worstDb = Math.max(
    outsideDb(upDb, RANGE_LIMITS.up),
    outsideDb(downDb, RANGE_LIMITS.down),
    outsideDb(totalDb, RANGE_LIMITS.total),
  );
  const verdict = worstDb <= HAIR_DB ? 'pass' : worstDb <= uncertaintyDb + HAIR_DB ? 'undecided' : 'fail';
  return { verdict, upDb, downDb, totalDb };
}
