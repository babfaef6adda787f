import { fahrenheitFromCelsius } from '../units.ts';
import type { Basis } from './basis.ts';

/** 37.777...8 degrees C is 100 degrees F; arithmetic that ends a hair above it still means 100. */
const HAIR_F = 1e-9;

export type AmbientOffset = Readonly<{ offsetDb: number; basis: Basis }>;

/**
 * Compensation for the day's temperature, by the rule.
 * @param ambientF  degrees F, finite
 * @returns  dB at the highest frequency: above 100 F +2, from 40 to 80 F none, below 20 F -2 (`practice`); above 80 up to
 *           100 F +1, from 20 up to below 40 F -1 (`interpolated`)
 * @throws   RangeError on a temperature that is no number
 * @source   common practice, no published source
 */
export function ambientOffsetAtF(ambientF: number): AmbientOffset {
  if (!Number.isFinite(ambientF)) throw new RangeError(`${ambientF} degrees F is no temperature`);
  if (ambientF > 100 + HAIR_F) return { offsetDb: 2, basis: 'practice' };
  if (ambientF > 80 + HAIR_F) return { offsetDb: 1, basis: 'interpolated' };
  if (ambientF >= 40 - HAIR_F) return { offsetDb: 0, basis: 'practice' };
  if (ambientF >= 20 - HAIR_F) return { offsetDb: -1, basis: 'interpolated' };
  return { offsetDb: -2, basis: 'practice' };
}

/**
 * The same from degrees Celsius.
 * @param ambientC  degrees C, finite
 * @returns  dB at the highest frequency
 * @throws   RangeError on a temperature that is no number
 * @source   common practice, no published source
 */
export const ambientOffsetAtC = (ambientC: number): AmbientOffset =>
  ambientOffsetAtF(fahrenheitFromCelsius(ambientC));
