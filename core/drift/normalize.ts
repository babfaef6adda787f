import type { Design } from '../files/station.ts';
import { RATED_C } from '../season/span.ts';
import { type Followed, figureDb, type SweepFigures } from './figures.ts';
import { type WeatherAt, weatherEffect } from './weather-effect.ts';

/**
 * How the temperature is taken out of a figure: by what the span and the control explain, by a regression on the temperature
 * where the station file tells no span, or not at all.
 */
export type NormalBasis = 'span' | 'regression' | 'none';

/** One sweep of the newest stretch as it counts: years before the newest one (0 or less), and its figure. */
export type NormalRow = Readonly<{
  place: number;
  years: number;
  ambientC: number | null;
  rawDb: number;
  /** As if it had been read at 20 degrees C; equal to `rawDb` where nothing is taken out yet or at all. */
  valueDb: number;
}>;

/** A regression on temperature needs so many sweeps over so many degrees; common practice, no published source. */
export const REGRESSION_FROM = 6;
export const REGRESSION_SPREAD_C = 10;

const YEAR_MS = 365.25 * 86_400_000;

/**
 * Years between two moments.
 * @param fromMs  milliseconds
 * @param toMs    milliseconds
 * @returns  years of 365.25 days, below 0 where the second is the earlier
 * @source   the Julian year
 */
export const yearsBetween = (fromMs: number, toMs: number): number => (toMs - fromMs) / YEAR_MS;

/**
 * A moment so many years on.
 * @param atMs   milliseconds
 * @param years  of 365.25 days
 * @returns  milliseconds, whole
 * @source   the Julian year
 */
export const yearsLater = (atMs: number, years: number): number => Math.round(atMs + years * YEAR_MS);

/**
 * How a stretch of sweeps can be normalized to temperature.
 * @param points   of the stretch
 * @param weather  what span and control explain, or null where they tell nothing
 * @returns  the way
 * @source   common practice, no published source: what is known goes before what has to be estimated
 */
export function normalBasis(points: readonly SweepFigures[], weather: WeatherAt | null): NormalBasis {
  const known = points.flatMap(({ ambientC }) => (ambientC === null ? [] : [ambientC]));
  if (weather !== null) return known.length === 0 ? 'none' : 'span';
  const spreadC = known.length === 0 ? 0 : Math.max(...known) - Math.min(...known);
  return known.length >= REGRESSION_FROM && spreadC >= REGRESSION_SPREAD_C ? 'regression' : 'none';
}

/**
 * One figure of a stretch, with what the span explains taken out. For `regression` the values are as they were read: the trend's own
 * fit takes the temperature out. A sweep without a temperature can't be normalized and is left out, unless none is.
 * @param points   of the stretch, in the order of time
 * @param of       which figure, dB
 * @param design   the port's
 * @param weather  what span and control explain; used for the basis `span` alone
 * @returns  rows with years before the newest point, and values in dB as if read at 20 degrees C
 * @source   see `weatherEffect`
 */
export function normalRows(
  points: readonly SweepFigures[],
  of: Followed,
  design: Design,
  weather: WeatherAt | null,
  basis: NormalBasis,
): readonly NormalRow[] {
  const newestMs = points.at(-1)?.atMs ?? 0;
  return points.flatMap((point, place): NormalRow[] => {
    const { ambientC, atMs } = point;
    const rawDb = figureDb(point, of);
    const row = { place, years: yearsBetween(newestMs, atMs), ambientC, rawDb };
    if (basis === 'none') return [{ ...row, valueDb: rawDb }];
    if (ambientC === null) return [];
    if (basis === 'regression' || weather === null) return [{ ...row, valueDb: rawDb }];
    const effect = weatherEffect(weather, design, ambientC);
    const takenOutDb = of === 'level' ? effect.levelDb : of === 'tilt' ? effect.tiltDb : 0;
    return [{ ...row, valueDb: rawDb - takenOutDb }];
  });
}

/**
 * Degrees from where a cable has its rated loss: the regressor, so that the constant is the value at 20 degrees C.
 * @param ambientC  degrees C; null is taken for 20
 * @returns  degrees C
 * @source   core/season/span.ts, `RATED_C`
 */
export const fromRatedC = (ambientC: number | null): number => (ambientC ?? RATED_C) - RATED_C;
