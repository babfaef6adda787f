import type { Station } from '../files/station.ts';
import { PER_DEGREE_C } from '../gain-control/span-offset.ts';
import { fitLine } from '../line/fit-line.ts';

/** Less than this between the coldest and the hottest reading says nothing of a control, degrees C. Common practice, no published source. */
export const LEAST_SWING_C = 5;

/** A level with the temperature of the air at its moment. */
export type LevelAtTemperature = Readonly<{ ambientC: number; levelDbmv: number }>;

export type Swing = Readonly<{
  coldestC: number;
  hottestC: number;
  /** The line through the readings: what the level changes by over that range, dB; falling with heat is negative. */
  levelDb: number;
  /** What the span alone would have made of it, dB. */
  withoutControlDb: number;
  /** The part of that which did not come out, 0 to 1 where the control works; below 0 where it makes things worse. */
  takenOut: number;
}>;

/**
 * How much of the weather's swing a gain control took out.
 * @param points        readings of one frequency at the output, dBmV and degrees C, any order
 * @param frequencyMhz  MHz of those readings
 * @param span          the cable in front of the station
 * @returns  the swing as it was and as the cable alone would have made it; null where the temperatures lie within 5 degrees
 *           of each other, or the span changes nothing
 * @throws   RangeError on a reading that is no number
 * @source   contract, section 3, "season, exactly", for the cable; least squares for the readings
 */
export function swingOf(
  points: readonly LevelAtTemperature[],
  frequencyMhz: number,
  span: NonNullable<Station['span']>,
): Swing | null {
  if (points.some(({ ambientC, levelDbmv }) => !Number.isFinite(ambientC) || !Number.isFinite(levelDbmv)))
    throw new RangeError('a reading is no number');
  const temperatures = points.map(({ ambientC }) => ambientC);
  const coldestC = Math.min(...temperatures);
  const hottestC = Math.max(...temperatures);
  const rangeC = hottestC - coldestC;
  if (!(rangeC >= LEAST_SWING_C)) return null;
  const fit = fitLine(
    temperatures,
    points.map(({ levelDbmv }) => levelDbmv),
  );
  if (!fit.ok) return null;
  const perDegreeC = span.perDegreeC ?? PER_DEGREE_C;
  const withoutControlDb = -span.lossDb * Math.sqrt(frequencyMhz / span.topMhz) * perDegreeC * rangeC;
  if (withoutControlDb === 0) return null;
  const levelDb = fit.value.tiltDb * rangeC;
  return { coldestC, hottestC, levelDb, withoutControlDb, takenOut: 1 - levelDb / withoutControlDb };
}
