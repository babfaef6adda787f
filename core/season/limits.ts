import { followedPart } from './control.ts';
import type { SeasonPlan } from './plan.ts';

/** Two ends of the year, seen from the day when the control was set. A temperature is null where none is such. */
export type Ends = Readonly<{ hotC: number | null; coldC: number | null }>;

/** Demand at the control's top frequency at which something ends, as distances from 0, dB; infinite where it never does. */
export type DemandEnds = Readonly<{ upDb: number; downDb: number }>;

/**
 * The demand at which the control reaches its limits.
 * @param followed  part of the demand that it follows, 0 or more
 * @param range     dB up and down
 * @returns  dB of demand, both not negative; infinite for a control that follows nothing
 * @source   contract, section 3, "season, exactly", solved for the demand
 */
export const limitDemand = (
  followed: number,
  range: Readonly<{ upDb: number; downDb: number }>,
): DemandEnds =>
  followed === 0
    ? { upDb: Number.POSITIVE_INFINITY, downDb: Number.POSITIVE_INFINITY }
    : { upDb: range.upDb / followed, downDb: range.downDb / followed };

/**
 * The demand at which the output leaves its tolerance: while the control moves it errs by |1 - followed| of the demand,
 * and after its limit by all that the demand goes further.
 * @param followed     part of the demand that it follows, 0 or more
 * @param range        dB up and down
 * @param toleranceDb  at the control's top frequency, dB, above 0
 * @returns  dB of demand, both not negative
 * @source   contract, section 3, "season, exactly", solved for the demand
 */
export function toleranceDemand(
  followed: number,
  range: Readonly<{ upDb: number; downDb: number }>,
  toleranceDb: number,
): DemandEnds {
  const moving = followed === 1 ? Number.POSITIVE_INFINITY : toleranceDb / Math.abs(1 - followed);
  const limit = limitDemand(followed, range);
  return {
    upDb: moving <= limit.upDb ? moving : range.upDb + toleranceDb,
    downDb: moving <= limit.downDb ? moving : range.downDb + toleranceDb,
  };
}

/**
 * By how much the span's loss at the control's top frequency changes a degree.
 * @returns  dB a degree C, not negative
 * @source   contract, section 3, "season, exactly"
 */
export const demandPerDegreeDb = ({ span, gainControl }: SeasonPlan): number =>
  span.lossDb * Math.sqrt(gainControl.topMhz / span.topMhz) * span.perDegreeC;

/**
 * The design's tolerance at the control's top frequency. The output's error goes as sqrt f and is largest at the design's
 * high frequency; what is allowed there is carried to the control's top.
 * @returns  dB, above 0
 * @source   contract, section 3, "season, exactly", and section 2, `design.toleranceDb`
 */
export const toleranceAtControlTopDb = ({ design, gainControl }: SeasonPlan): number =>
  design.toleranceDb * Math.sqrt(gainControl.topMhz / design.highMhz);

function temperatures(plan: SeasonPlan, demand: DemandEnds): Ends {
  const perDegreeDb = demandPerDegreeDb(plan);
  const { setAtC } = plan.gainControl;
  const at = (db: number): number | null => {
    const degrees = perDegreeDb === 0 ? Number.POSITIVE_INFINITY : db / perDegreeDb;
    return Number.isFinite(degrees) ? degrees : null;
  };
  const up = at(demand.upDb);
  const down = at(demand.downDb);
  return { hotC: up === null ? null : setAtC + up, coldC: down === null ? null : setAtC - down };
}

/**
 * The temperatures beyond which the control is held at its limit.
 * @returns  degrees C of the cable, exact; null where it never is
 * @source   contract, section 3, "season, exactly"
 */
export const limitTemperatures = (plan: SeasonPlan): Ends =>
  temperatures(plan, limitDemand(followedPart(plan), plan.gainControl));

/**
 * The temperatures beyond which the output at the design's high frequency, where the error is largest, leaves the
 * design's tolerance.
 * @returns  degrees C of the cable, exact; null where it never does
 * @source   contract, section 3, "season, exactly", and section 2, `design.toleranceDb`
 */
export const toleranceTemperatures = (plan: SeasonPlan): Ends =>
  temperatures(plan, toleranceDemand(followedPart(plan), plan.gainControl, toleranceAtControlTopDb(plan)));
