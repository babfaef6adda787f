import { normalBelow } from './normal.ts';

export type Verdict = 'pass' | 'fail' | 'undecided';

/** Pass needs this chance at least of lying inside the limits, fail at most the other. */
export const PASS_FROM = 0.95;
export const FAIL_TO = 0.05;
/** A billionth of a dB is rounding: exactly at the limit is inside. */
const SAME_DB = 1e-9;

/** What is allowed, dB; null where there is no limit on that side. */
export type Limits = Readonly<{ fromDb: number | null; toDb: number | null }>;

/**
 * How likely it is that the true value lies inside its limits, given what was read and how uncertain that is.
 * @param readDb  dB, the best estimate
 * @param uDb     dB, its standard uncertainty, 0 or more; the true value is taken as normal about what was read
 * @param limits  dB; both ends belong to what is allowed
 * @returns  0 to 1; 0 or 1 where uDb is 0
 * @throws   RangeError when a number is none or the uncertainty is negative: no caller may do that
 * @source   JCGM 106:2012, clause 7: conformance probability with a normal distribution; one limit 7.3, as table 1 there
 *           is used by the demo "JCGM106" of the R package propagate; 7.2 and 7.4 from memory
 */
export function conformanceProbability(readDb: number, uDb: number, limits: Limits): number {
  if (!(Number.isFinite(readDb) && Number.isFinite(uDb) && uDb >= 0))
    throw new RangeError(`no probability of ${readDb} dB with ${uDb} dB`);
  const { fromDb, toDb } = limits;
  if (uDb === 0)
    return readDb >= (fromDb ?? -Infinity) - SAME_DB && readDb <= (toDb ?? Infinity) + SAME_DB ? 1 : 0;
  // Below one limit less below the other; each tail is taken on its own side, so that no digits are lost.
  const above = toDb === null ? 0 : normalBelow((readDb - toDb) / uDb);
  const below = fromDb === null ? 0 : normalBelow((fromDb - readDb) / uDb);
  return Math.min(1, Math.max(0, 1 - above - below));
}

/**
 * Pass, fail, or undecided where the limit lies within what the reading is uncertain by.
 * @param probability  0 to 1, of lying inside the limits
 * @returns  pass from 0.95 on, fail up to 0.05; in between undecided
 * @source   JCGM 106:2012, 8.3: guarded acceptance and guarded rejection (8.3.2 and 8.3.3: numbers from memory, the text
 *           was not read); 95 % is this program's choice
 */
export const decide = (probability: number): Verdict =>
  probability >= PASS_FROM ? 'pass' : probability <= FAIL_TO ? 'fail' : 'undecided';

/**
 * A chance as a person says it.
 * @param probability  0 to 1
 * @returns  "97 in 100", "more than 999 in 1000", "less than 1 in 1000"
 * @source   common practice, no published source
 */
export function chanceWords(probability: number): string {
  if (probability >= 0.9995) return 'more than 999 in 1000';
  if (probability < 0.0005) return 'less than 1 in 1000';
  return probability >= 0.985 || probability < 0.015
    ? `${Math.round(probability * 1000)} in 1000`
    : `${Math.round(probability * 100)} in 100`;
}
