import type { Station } from '../files/station.ts';
import { targetDbmv } from '../line/design-line.ts';
import { done, type Result, refuse } from '../result.ts';
import { controlAt } from './control.ts';
import { limitTemperatures } from './limits.ts';
import { type ControlMode, type NoSeason, type SeasonPlan, seasonPlan } from './plan.ts';
import { spanDemandDb } from './span.ts';

/** The table's temperatures where none are told, degrees C. Common practice, no published source. */
export const SEASON_DEFAULTS = { fromC: -30, toC: 45, stepC: 5 } as const;

const MOST_ROWS = 10_000;

export type SeasonRange = Readonly<{ fromC: number; toC: number; stepC: number }>;

export type SeasonRow = Readonly<{
  ambientC: number;
  mode: ControlMode;
  /** Output at the design's low and high frequency. */
  lowDbmv: number;
  highDbmv: number;
  /** At the control's top frequency. */
  controlDb: number;
  atLimit: boolean;
}>;

export type Season = Readonly<{
  rows: readonly SeasonRow[];
  /** The first temperature of the table, going out from where it was set, at which the control is held. */
  firstLimitHotC: number | null;
  firstLimitColdC: number | null;
  /** Where exactly it reaches its limit, whether or not the table goes so far. */
  exactLimitHotC: number | null;
  exactLimitColdC: number | null;
}>;

/** Decimal steps such as 0.1 are kept decimal: -30 + 3 * 0.1 is -29.7. */
const tidy = (ambientC: number): number => Math.round(ambientC * 1e9) / 1e9;

function temperaturesOf({ fromC, toC, stepC }: SeasonRange): Result<number[], 'bad-range'> {
  if (!(fromC >= -90 && toC <= 150 && fromC <= toC))
    return refuse('bad-range', `${fromC} to ${toC} °C`, 'say the coldest first, between -90 and 150 °C');
  if (!(stepC > 0 && Number.isFinite(stepC)))
    return refuse('bad-range', `steps of ${stepC} °C`, 'say a step above 0 °C');
  const count = Math.floor((toC - fromC) / stepC + 1e-9) + 1;
  if (count > MOST_ROWS)
    return refuse('bad-range', `steps of ${stepC} °C`, `say a larger step: ${MOST_ROWS} rows at most`);
  return done(Array.from({ length: count }, (_, k) => tidy(fromC + k * stepC)));
}

/**
 * A station's output and control at one temperature.
 * @param ambientC  degrees C of the cable
 * @returns  levels in dBmV at the design's two frequencies, the control in dB at its top frequency
 * @source   contract, section 3, "season, exactly"
 */
export function seasonRow(plan: SeasonPlan, ambientC: number): SeasonRow {
  const { design, span, gainControl } = plan;
  const { controlDb, atLimit } = controlAt(plan, ambientC);
  const output = (frequencyMhz: number) =>
    targetDbmv(design, frequencyMhz) -
    spanDemandDb(span, frequencyMhz, ambientC, gainControl.setAtC) +
    controlDb * Math.sqrt(frequencyMhz / gainControl.topMhz);
  return {
    ambientC,
    mode: gainControl.mode,
    lowDbmv: output(design.lowMhz),
    highDbmv: output(design.highMhz),
    controlDb,
    atLimit,
  };
}

/**
 * A station over the temperatures of a year.
 * @param station  levels in dBmV, frequencies in MHz, temperatures in degrees C
 * @param range    degrees C: from the coldest in steps to the hottest; the last row is the last whole step
 * @param mode     another mode than the station's own, to see what it would do
 * @returns  a row a temperature from the coldest to the hottest, and the first limits on both sides of where the control
 *           was set; or a refusal that says what the station lacks or what is wrong with the range
 * @source   contract, section 3, "season, exactly"
 */
export function season(
  station: Station,
  range: SeasonRange = SEASON_DEFAULTS,
  mode?: ControlMode,
): Result<Season, NoSeason | 'bad-range'> {
  const plan = seasonPlan(station, mode);
  if (!plan.ok) return plan;
  const temperatures = temperaturesOf(range);
  if (!temperatures.ok) return temperatures;
  const rows = temperatures.value.map((ambientC) => seasonRow(plan.value, ambientC));
  const { setAtC } = plan.value.gainControl;
  const exact = limitTemperatures(plan.value);
  return done({
    rows,
    firstLimitHotC: rows.find((row) => row.atLimit && row.ambientC > setAtC)?.ambientC ?? null,
    firstLimitColdC: rows.findLast((row) => row.atLimit && row.ambientC < setAtC)?.ambientC ?? null,
    exactLimitHotC: exact.hotC,
    exactLimitColdC: exact.coldC,
  });
}
