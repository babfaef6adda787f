import { type Budget, differenceUncertaintyDb } from '../uncertainty/budget.ts';
import { conformanceProbability, decide, type Verdict } from '../uncertainty/conformity.ts';

/**
 * How far a reserve may lie from what the rule asks for, dB, either way: half of the smallest step of the rule's ambient
 * compensation, so that one that was set for another temperature stands out. Common practice, no published source.
 */
export const RESERVE_WITHIN_DB = 0.5;

export type ReserveVerdict = Readonly<{
  verdict: Verdict;
  /** 0 to 1: how likely it is that the true reserve lies within RESERVE_WITHIN_DB of what is asked for. */
  probability: number;
  measuredDb: number;
  askedDb: number;
  /** Standard uncertainty of what was measured, dB. */
  uDb: number;
  /** Which side of what is asked for it was read on; an even one counts as neither. */
  side: 'small' | 'large' | 'even';
}>;

/**
 * Judges a reserve that was read as the maximum gain less the set level: two readings of one carrier with one meter, so
 * that only what the meter repeats to counts.
 * @param measuredDb  dB below the maximum
 * @param askedDb     dB that the rule asks for, with the day's compensation where the level was set by it
 * @param budget      of the meter, as `budgetOf` made it
 * @returns  pass, fail or undecided with the probability, and the standard uncertainty in dB
 * @throws   RangeError when a number is none: both come from checked records
 * @source   the rule and its limit: common practice, no published source; JCGM 100:2008, 5.2.2 (a common error falls out
 *           of a difference); JCGM 106:2012, 8.3 (guard bands, from memory)
 */
export function reserveVerdict(measuredDb: number, askedDb: number, budget: Budget): ReserveVerdict {
  const uDb = differenceUncertaintyDb(budget);
  const probability = conformanceProbability(measuredDb, uDb, {
    fromDb: askedDb - RESERVE_WITHIN_DB,
    toDb: askedDb + RESERVE_WITHIN_DB,
  });
  const side = measuredDb < askedDb ? 'small' : measuredDb > askedDb ? 'large' : 'even';
  return { verdict: decide(probability), probability, measuredDb, askedDb, uDb, side };
}
