import type { Design } from '../files/station.ts';
import { targetDbmv } from './design-line.ts';

/**
 * How far a level lies from the design line.
 * @param design        a port's design
 * @param frequencyMhz  MHz
 * @param levelDbmv     dBmV at the port
 * @returns  level - target, dB; null outside the design's range, where the design asks for nothing
 * @source   contract, section 3, "propose, exactly": worst = |after - target| over rows inside [lowMhz, highMhz]
 */
export function deviationFromDesignDb(
  design: Design,
  frequencyMhz: number,
  levelDbmv: number,
): number | null {
  if (frequencyMhz < design.lowMhz || frequencyMhz > design.highMhz) return null;
  return levelDbmv - targetDbmv(design, frequencyMhz);
}

/**
 * Whether a deviation is one that the design allows. A billionth of a dB is rounding: exactly at the tolerance is inside.
 * @param deviationDb  dB, with its sign
 * @param toleranceDb  dB, above 0
 * @source   contract, section 2, `toleranceDb`
 */
export const isWithinTolerance = (deviationDb: number, toleranceDb: number): boolean =>
  Math.abs(deviationDb) <= toleranceDb + 1e-9;
