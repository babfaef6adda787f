import type { Station } from '../../core/files/station.ts';
import { controlAt } from '../../core/season/control.ts';
import { type SeasonDays, seasonDays } from '../../core/season/days.ts';
import { type Ends, limitTemperatures, toleranceTemperatures } from '../../core/season/limits.ts';
import { type ControlMode, type SeasonPlan, seasonPlan } from '../../core/season/plan.ts';
import { type SeasonRow, seasonRow } from '../../core/season/rows.ts';
import { type ColdAndHot, cableTemperatures } from '../../core/season/sun.ts';
import { type SeasonHelp, whatWouldHelp } from '../../core/season/what-would-help.ts';
import type { Weather } from './season-slice.ts';

/** What a thermal control follows where the station file says nothing; shown as taken, not as known. */
export const TAKEN_TRACKING = 0.8;
const TABLE_STEP_C = 5;
const CHART_STEP_C = 1;

export type SeasonView = Readonly<{
  plan: SeasonPlan;
  /** True when `TAKEN_TRACKING` stands in for a figure that the file lacks. */
  trackingTaken: boolean;
  air: ColdAndHot;
  cable: ColdAndHot;
  /** By how much the sun makes the hot end of the cable warmer than the air. */
  sunC: number;
  chart: readonly SeasonRow[];
  table: readonly SeasonRow[];
  /** Degrees C of the cable; null where nothing ends. */
  limit: Ends;
  tolerance: Ends;
  /** What is left of the control's reach on the coldest and on the hottest day, dB; null for a manual one. */
  leftColdDb: number | null;
  leftHotDb: number | null;
  help: SeasonHelp;
  /** Only with a file of days. */
  days: SeasonDays | null;
  dayCount: number;
}>;

export type NoSeasonView = Readonly<{ missing: string; helpText: string }>;

/** Temperatures in even steps, with both ends. */
function steps(fromC: number, toC: number, stepC: number): readonly number[] {
  const inner: number[] = [];
  for (let at = Math.ceil(fromC / stepC) * stepC; at <= toC + 1e-9; at += stepC) inner.push(at);
  return [...new Set([fromC, ...inner, toC])].sort((a, b) => a - b);
}

/** A year of a station, computed by core from its file and the weather. */
export function viewSeason(
  station: Station,
  weather: Weather,
  sunOffsetC: number,
  mode: ControlMode | null,
): SeasonView | NoSeasonView {
  const asked = mode ?? station.gainControl?.mode;
  const trackingTaken =
    asked === 'thermal' &&
    station.gainControl !== undefined &&
    station.gainControl.thermalTracking === undefined;
  const told: Station =
    trackingTaken && station.gainControl !== undefined
      ? { ...station, gainControl: { ...station.gainControl, thermalTracking: TAKEN_TRACKING } }
      : station;
  const planned = seasonPlan(told, asked);
  if (!planned.ok) return { missing: planned.where, helpText: planned.help };
  const plan = planned.value;
  const air = { coldC: weather.climate.coldestC, hotC: weather.climate.hottestC };
  const cable = cableTemperatures(air, plan.span.sky, sunOffsetC);
  const { upDb, downDb, mode: is } = plan.gainControl;
  const position = (ambientC: number) => controlAt(plan, ambientC).controlDb;
  return {
    plan,
    trackingTaken,
    air,
    cable,
    sunC: cable.hotC - air.hotC,
    chart: steps(cable.coldC, cable.hotC, CHART_STEP_C).map((ambientC) => seasonRow(plan, ambientC)),
    table: steps(cable.coldC, cable.hotC, TABLE_STEP_C).map((ambientC) => seasonRow(plan, ambientC)),
    limit: limitTemperatures(plan),
    tolerance: toleranceTemperatures(plan),
    leftColdDb: is === 'manual' ? null : downDb + position(cable.coldC),
    leftHotDb: is === 'manual' ? null : upDb - position(cable.hotC),
    help: whatWouldHelp(told, plan, cable),
    days: weather.climate.days.length === 0 ? null : seasonDays(plan, weather.climate.days, sunOffsetC),
    dayCount: weather.climate.days.length,
  };
}
