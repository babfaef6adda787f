import { feetFromMetres } from '../units.ts';

/** Metres that light goes in a microsecond: exact by the definition of the metre. */
const LIGHT_M_PER_US = 299.792458;

/** Of foamed hardline. A cable's data sheet says its own. */
export const VELOCITY_FACTOR = 0.87;

/**
 * How far apart two mismatches are that make a ripple, or how far away one is that is seen in reflection.
 * @param periodMhz       of the ripple, MHz, above 0
 * @param velocityFactor  of the cable, above 0, at most 1; 0.87 unless told
 * @returns  v / (2 df) in metres and in feet
 * @throws   RangeError on a period or a factor that is none
 * @source   R. Hranac, "How Fast is RF?" (cablefax); c = 299,792,458 m/s exactly
 */
export function echoDistance(
  periodMhz: number,
  velocityFactor: number = VELOCITY_FACTOR,
): Readonly<{ distanceM: number; distanceFt: number }> {
  if (!(periodMhz > 0) || !Number.isFinite(periodMhz)) throw new RangeError(`a period of ${periodMhz} MHz`);
  if (!(velocityFactor > 0 && velocityFactor <= 1))
    throw new RangeError(`a velocity factor of ${velocityFactor}`);
  const distanceM = (LIGHT_M_PER_US * velocityFactor) / (2 * periodMhz);
  const distanceFt = feetFromMetres(distanceM);
  if (!Number.isFinite(distanceFt)) throw new RangeError(`a period of ${periodMhz} MHz`);
  return { distanceM, distanceFt };
}

/** dB in a neper. */
const DB_PER_NEPER = 20 / Math.LN10;

/**
 * Peak to peak of the ripple that an echo makes: 20 log((1 + r)/(1 - r)).
 * @param echoRatio  amplitude of the echo to that of the signal, r, 0 or more and below 1
 * @returns  dB
 * @throws   RangeError on a ratio that no echo has
 * @source   two phasors that add and cancel: definition
 */
export function echoPeakToPeakDb(echoRatio: number): number {
  if (!(echoRatio >= 0 && echoRatio < 1)) throw new RangeError(`an echo of ${echoRatio}`);
  return 2 * DB_PER_NEPER * Math.atanh(echoRatio);
}

/**
 * The echo whose ripple has this amplitude at its period, after the harmonics of 20 log|1 + r e^(jx)| are taken apart.
 * @param amplitudeDb  half of the swing at the period itself, dB, 0 or more
 * @returns  r, no unit; not necessarily below 1
 * @source   series of ln(1 + z): the first term is r
 */
export const echoRatioOf = (amplitudeDb: number): number => amplitudeDb / DB_PER_NEPER;
