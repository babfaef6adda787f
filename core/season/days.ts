import type { ClimateDay } from '../files/climate.ts';
import { type Ends, limitTemperatures, toleranceTemperatures } from './limits.ts';
import type { SeasonPlan } from './plan.ts';
import { cableTemperatures } from './sun.ts';

/** A day on which something ends, at its cold or its hot hour, and how warm the cable is then. */
export type DayOut = Readonly<{ date: string; end: 'cold' | 'hot'; cableC: number }>;

export type SeasonDays = Readonly<{
  /** The first day on which the control is held at its limit. */
  firstAtLimit: DayOut | null;
  /** The first day on which the output leaves the design's tolerance. */
  firstOutOfTolerance: DayOut | null;
  daysAtLimit: number;
  daysOutOfTolerance: number;
}>;

function outOn(day: ClimateDay, plan: SeasonPlan, sunOffsetC: number, ends: Ends): DayOut | null {
  const cable = cableTemperatures({ coldC: day.minC, hotC: day.maxC }, plan.span.sky, sunOffsetC);
  if (ends.coldC !== null && cable.coldC < ends.coldC)
    return { date: day.date, end: 'cold', cableC: cable.coldC };
  if (ends.hotC !== null && cable.hotC > ends.hotC) return { date: day.date, end: 'hot', cableC: cable.hotC };
  return null;
}

/**
 * Walks through the days of a climate: the first that the control can't hold, and how many.
 * @param days        in the order of their dates; degrees C of the air
 * @param sunOffsetC  degrees C that full sun adds to an aerial cable, 0 or more
 * @returns  days by their dates; null where every day holds. The cold hour of a day comes before its hot one.
 * @source   contract, section 3, "season, exactly"; sun: common practice, no published source
 */
export function seasonDays(plan: SeasonPlan, days: readonly ClimateDay[], sunOffsetC: number): SeasonDays {
  const limit = limitTemperatures(plan);
  const tolerance = toleranceTemperatures(plan);
  const atLimit = days.map((day) => outOn(day, plan, sunOffsetC, limit)).filter((day) => day !== null);
  const outside = days.map((day) => outOn(day, plan, sunOffsetC, tolerance)).filter((day) => day !== null);
  return {
    firstAtLimit: atLimit[0] ?? null,
    firstOutOfTolerance: outside[0] ?? null,
    daysAtLimit: atLimit.length,
    daysOutOfTolerance: outside.length,
  };
}
