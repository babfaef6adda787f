import { chanceFrom } from './chance.ts';
import { followedPart } from './control.ts';
import { limitDemand, toleranceAtControlTopDb, toleranceDemand } from './limits.ts';
import type { SeasonPlan } from './plan.ts';
import type { ColdAndHot } from './sun.ts';

/** Standard uncertainties of what a season rests on. */
export type SeasonUncertainty = Readonly<{
  spanLossDb: number;
  /** Of the coefficient, as a part a degree C. */
  perDegreeC: number;
  /** Of where in its range the control was set: what one side gains the other loses. */
  reserveDb: number;
  setAtC: number;
}>;

/**
 * What a careful technician's figures are good for: a span from the map to 1 dB; 0.00198 against 0.0018 a degree, both in
 * use; a reserve set with a hand-held meter to 0.5 dB; a thermometer in a truck to 3 degrees. Common practice, no
 * published source, but for the two coefficients (tech tip "Coaxial Cable Attenuation Changes versus Temperature";
 * "Automatic Gain Control Part 01", Transmit Magazine, 11 Apr 2016).
 */
export const SEASON_UNCERTAINTY: SeasonUncertainty = {
  spanLossDb: 1,
  perDegreeC: 0.00018,
  reserveDb: 0.5,
  setAtC: 3,
};

export const SEASON_RUNS = 10_000;

export type SeasonChance = Readonly<{
  runs: number;
  /** Part of the runs, 0 to 1, in which the output stays within the design's tolerance all year. */
  holds: number;
  /** Part of the runs in which the control is never held at its limit. */
  neverAtLimit: number;
  /** Part of the runs that leave the tolerance at each end; a run may leave it at both. */
  failsHot: number;
  failsCold: number;
}>;

/**
 * The chance that a station holds all year, when its figures are as uncertain as they are.
 * @param cable        coldest and hottest cable of the year, degrees C
 * @param uncertainty  standard uncertainties, normal and independent; dB, parts a degree, degrees C
 * @param seed         whole number from 0 to 2^32 - 1: the same seed gives the same answer
 * @param runs         1 or more
 * @returns  parts of the runs, 0 to 1
 * @throws   RangeError on a seed or a number of runs that is none
 * @source   JCGM 101:2008 (propagation of distributions by a Monte Carlo method), over contract section 3, "season,
 *           exactly"
 */
export function seasonChance(
  plan: SeasonPlan,
  cable: ColdAndHot,
  seed: number,
  uncertainty: SeasonUncertainty = SEASON_UNCERTAINTY,
  runs: number = SEASON_RUNS,
): SeasonChance {
  if (!Number.isInteger(runs) || runs < 1) throw new RangeError(`${runs} runs`);
  const { span, gainControl } = plan;
  const chance = chanceFrom(seed);
  const followed = followedPart(plan);
  const toleranceDb = toleranceAtControlTopDb(plan);
  const perLossDb = Math.sqrt(gainControl.topMhz / span.topMhz);
  const counts = { holds: 0, neverAtLimit: 0, failsHot: 0, failsCold: 0 };
  for (let run = 0; run < runs; run++) {
    const lossDb = Math.max(0, span.lossDb + uncertainty.spanLossDb * chance.normal());
    const perDegreeC = Math.max(0, span.perDegreeC + uncertainty.perDegreeC * chance.normal());
    const movedDb = uncertainty.reserveDb * chance.normal();
    const setAtC = gainControl.setAtC + uncertainty.setAtC * chance.normal();
    const range = {
      upDb: Math.max(0, gainControl.upDb + movedDb),
      downDb: Math.max(0, gainControl.downDb - movedDb),
    };
    const perDegreeDb = lossDb * perLossDb * perDegreeC;
    const hotDb = perDegreeDb * (cable.hotC - setAtC);
    const coldDb = perDegreeDb * (setAtC - cable.coldC);
    const limit = limitDemand(followed, range);
    const tolerance = toleranceDemand(followed, range, toleranceDb);
    const hot = hotDb > tolerance.upDb;
    const cold = coldDb > tolerance.downDb;
    if (hot) counts.failsHot++;
    if (cold) counts.failsCold++;
    if (!hot && !cold) counts.holds++;
    if (hotDb <= limit.upDb && coldDb <= limit.downDb) counts.neverAtLimit++;
  }
  return {
    runs,
    holds: counts.holds / runs,
    neverAtLimit: counts.neverAtLimit / runs,
    failsHot: counts.failsHot / runs,
    failsCold: counts.failsCold / runs,
  };
}
