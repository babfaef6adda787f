import type { Design } from '../files/station.ts';
import { type Budget, budgetOf, type Conditions, channelUncertaintyDb } from '../uncertainty/budget.ts';
import { conformanceProbability, decide, type Limits, type Verdict } from '../uncertainty/conformity.ts';
import { type FitErrors, fitErrors } from '../uncertainty/fit-errors.ts';
import { type LineUncertainty, lineUncertainty } from '../uncertainty/line-uncertainty.ts';
import { positionOf } from './position.ts';

/** A verdict; where the reading's uncertainty was given, also the chance of lying inside and what it is uncertain by. */
export type Judged = Readonly<{ verdict: Verdict; probability?: number; uDb?: number }>;

/** Everything that a standing's uncertainties come from. */
export type StandingUncertainty = Readonly<{ budget: Budget; errors: FitErrors; line: LineUncertainty }>;

/**
 * What a sweep's level, tilt and flatness are uncertain by.
 * @param position     of the rows that the line was fitted to, from the design's low to its high end, no unit
 * @param deviationDb  row less fitted line, dB, as many as rows
 * @returns  the budget, the fit's standard errors and the four combined, dB; null where no line can be fitted
 * @source   JCGM 100:2008, 5.1.2 (from memory); see `budgetOf`, `fitErrors`, `lineUncertainty`
 */
export function standingUncertainty(
  position: ArrayLike<number>,
  deviationDb: ArrayLike<number>,
  conditions: Conditions,
): StandingUncertainty | null {
  const budget = budgetOf(conditions);
  const errors = fitErrors(position, deviationDb, budget.singleDb);
  return errors === null ? null : { budget, errors, line: lineUncertainty(budget, errors) };
}

/**
 * A value against its limits: with what it is uncertain by, or as if it were certain.
 * @param valueDb  dB
 * @param uDb      standard uncertainty in dB, or null when nothing is known of it
 * @param limits   dB, either may be null
 * @returns  pass or fail alone when uDb is null; else pass, fail or undecided with probability and uDb
 * @source   JCGM 106:2012, 8.3; without an uncertainty simple acceptance, 8.2 (both from memory)
 */
export function judged(valueDb: number, uDb: number | null, limits: Limits): Judged {
  const probability = conformanceProbability(valueDb, uDb ?? 0, limits);
  return uDb === null ? { verdict: decide(probability) } : { verdict: decide(probability), probability, uDb };
}

/**
 * What one channel of a design is uncertain by.
 * @param frequencyMhz  MHz, inside the design
 * @returns  standard uncertainty, dB
 * @source   see `channelUncertaintyDb`
 */
export const channelUncertaintyAt = (budget: Budget, design: Design, frequencyMhz: number): number =>
  channelUncertaintyDb(budget, positionOf(frequencyMhz, design.shape, design.lowMhz, design.highMhz));

/**
 * Several parts as one: fail when one fails, pass when all pass, undecided otherwise; as likely as the least likely.
 * @param parts  one or more
 * @returns  the verdict, and the least probability where all have one
 * @source   common practice, no published source
 */
export function together(parts: readonly Judged[]): Judged {
  const has = (verdict: Verdict) => parts.some((part) => part.verdict === verdict);
  const verdict = has('fail') ? 'fail' : has('undecided') ? 'undecided' : 'pass';
  const known = parts.flatMap(({ probability }) => (probability === undefined ? [] : [probability]));
  return known.length === parts.length && known.length > 0
    ? { verdict, probability: Math.min(...known) }
    : { verdict };
}
