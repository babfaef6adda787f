import { type Budget, combined } from './budget.ts';
import type { FitErrors } from './fit-errors.ts';

/** Standard uncertainties of what a sweep is judged by, dB. */
export type LineUncertainty = Readonly<{
  levelLowDb: number;
  levelHighDb: number;
  tiltDb: number;
  flatnessDb: number;
}>;

/**
 * What level, tilt and flatness of a fitted line are uncertain by: the meter's share and that of the rows' scatter.
 *
 * The level at an end carries what all channels share, half of what the ends differ by, and the fit's standard error.
 * Tilt is free of what all share. Flatness is the difference of two readings; a line across the band is taken away by
 * the fit. Chance readings widen a flat sweep's flatness a little, which this does not take off again.
 * @param budget  as budgetOf made it
 * @param errors  of the fit, dB; its scatter already holds the repeatability of the readings
 * @returns  dB each
 * @source   JCGM 100:2008, 5.1.2 (from memory)
 */
export const lineUncertainty = (budget: Budget, errors: FitErrors): LineUncertainty => ({
  levelLowDb: combined([budget.commonDb, budget.acrossDb / 2, errors.lowDb]),
  levelHighDb: combined([budget.commonDb, budget.acrossDb / 2, errors.highDb]),
  tiltDb: combined([budget.acrossDb, errors.tiltDb]),
  flatnessDb: combined([budget.singleDb, budget.singleDb]),
});
