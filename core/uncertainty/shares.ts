import type { Budget } from './budget.ts';
import type { FitErrors } from './fit-errors.ts';

/** What a figure of a sweep's standing is called. */
export type Figure = 'level-low' | 'level-high' | 'tilt' | 'flatness' | 'worst';
/** One part of a figure's uncertainty: what the contribution does to this figure, dB. */
export type Share = Readonly<{ name: string; uDb: number; basis: string }>;

/** 95 of 100 times the true value lies within this many standard uncertainties. */
export const COVERAGE = 1.96;

/**
 * What a standard uncertainty means to a reader: 95 of 100 times the true value lies within plus or minus this.
 * @param uDb  standard uncertainty, dB
 * @returns  expanded uncertainty, dB
 * @source   JCGM 100:2008, 6.2.1 and annex G (from memory): coverage factor 1.96 for 95 % of a normal spread
 */
export const goodToDb = (uDb: number): number => COVERAGE * uDb;

const FIT_BASIS = 'standard error of the fitted line: how the channels scatter about it';

/**
 * What a figure's uncertainty is made of, part by part; the root of the sum of squares is the figure's own.
 * @param figure    which one
 * @param budget    as budgetOf made it
 * @param errors    of the fitted line, dB
 * @param position  for `worst`: where its channel lies, 0 at the band's low end, 1 at its high end
 * @returns  in the budget's order, the fit last; parts that do nothing to this figure left out; dB
 * @source   JCGM 100:2008, 5.1.2 (from memory); the sensitivities are those of `lineUncertainty` and `channelUncertaintyDb`
 */
export function sharesOf(figure: Figure, budget: Budget, errors: FitErrors, position: number): Share[] {
  const sensitivity = { common: 0, across: 0, single: 0 };
  let fitDb = 0;
  switch (figure) {
    case 'level-low':
      Object.assign(sensitivity, { common: 1, across: 0.5 });
      fitDb = errors.lowDb;
      break;
    case 'level-high':
      Object.assign(sensitivity, { common: 1, across: 0.5 });
      fitDb = errors.highDb;
      break;
    case 'tilt':
      sensitivity.across = 1;
      fitDb = errors.tiltDb;
      break;
    case 'flatness':
      sensitivity.single = Math.SQRT2;
      break;
    case 'worst':
      Object.assign(sensitivity, { common: 1, across: Math.abs(position - 0.5), single: 1 });
      break;
  }
  const shares = budget.contributions.map(({ name, spread, uDb, basis }) => ({
    name,
    uDb: sensitivity[spread] * uDb,
    basis,
  }));
  return [...shares, { name: 'the fitted line', uDb: fitDb, basis: FIT_BASIS }].filter(({ uDb }) => uDb > 0);
}
