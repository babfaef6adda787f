import type { Span } from './plan.ts';

/** How much warmer than the air a dark-jacketed aerial cable gets in full sun, degrees C. From memory, no published source. */
export const SUN_OFFSET_C = 15;

/** A stretch of a day, or of a year: the coldest and the hottest air or cable in it, degrees C. */
export type ColdAndHot = Readonly<{ coldC: number; hotC: number }>;

/**
 * The cable's temperatures from the air's. Sun warms an aerial cable at the hot end of a day; a buried one and one of
 * unknown course are taken as warm as the air, which for a buried one is too wide a swing, on the safe side.
 * @param air          degrees C of the air
 * @param sky          where the span hangs, as the station says
 * @param sunOffsetC   degrees C that full sun adds, 0 or more
 * @returns  degrees C of the cable
 * @throws   RangeError on an offset that is negative or no number
 * @source   common practice, no published source; the size of the offset is from memory
 */
export function cableTemperatures(
  air: ColdAndHot,
  sky: Span['sky'],
  sunOffsetC: number = SUN_OFFSET_C,
): ColdAndHot {
  if (!(sunOffsetC >= 0) || !Number.isFinite(sunOffsetC))
    throw new RangeError(`${sunOffsetC} degrees of sun`);
  return { coldC: air.coldC, hotC: air.hotC + (sky === 'aerial' ? sunOffsetC : 0) };
}
