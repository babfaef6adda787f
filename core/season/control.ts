import type { SeasonPlan } from './plan.ts';
import { spanDemandDb } from './span.ts';

export type ControlState = Readonly<{
  /** What the control adds at its top frequency, dB. */
  controlDb: number;
  /** True when it wanted to go further and was held. */
  atLimit: boolean;
}>;

/** A demand that ends exactly at the limit is not held there, whichever way a computer's last digit fell. */
const ROUNDING_DB = 1e-9;

/**
 * Where the control stands at a temperature.
 * @param ambientC  degrees C of the cable
 * @returns  dB at the control's top frequency: none for `manual`; the demand there for `auto`; its tracked part for
 *           `thermal`; both held within -downDb to +upDb
 * @throws   RangeError for `thermal` without its tracking: `seasonPlan` has seen to that
 * @source   contract, section 3, "season, exactly"; top(f) there is the control's own topMhz
 */
export function controlAt(plan: SeasonPlan, ambientC: number): ControlState {
  const { mode, topMhz, setAtC, upDb, downDb } = plan.gainControl;
  const followed = followedPart(plan);
  if (mode === 'manual') return { controlDb: 0, atLimit: false };
  const wantedDb = followed * spanDemandDb(plan.span, topMhz, ambientC, setAtC);
  const controlDb = Math.min(Math.max(wantedDb, -downDb), upDb);
  return { controlDb, atLimit: Math.abs(wantedDb - controlDb) > ROUNDING_DB };
}

/**
 * Which part of the demand the control follows while it is free to move.
 * @returns  0 for `manual`, 1 for `auto`, the tracking for `thermal`; no unit
 * @throws   RangeError for `thermal` without its tracking
 * @source   contract, section 3, "season, exactly"
 */
export function followedPart(plan: SeasonPlan): number {
  switch (plan.gainControl.mode) {
    case 'manual':
      return 0;
    case 'auto':
      return 1;
    case 'thermal':
      if (plan.thermalTracking === null) throw new RangeError('a thermal control without its tracking');
      return plan.thermalTracking;
  }
}
