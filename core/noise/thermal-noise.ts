import { type Allowed, type Unfit, unfit } from '../checked.ts';
import { done, type Result } from '../result.ts';
import { dbmvFromWatt } from '../units.ts';

/** Boltzmann's constant, J/K: exact since the SI of 2019. */
export const BOLTZMANN = 1.380649e-23;
/** The temperature at which a noise figure is defined, K (about 17 degrees C). */
export const NOISE_REFERENCE_K = 290;

/** Noise bandwidths in use, MHz: analog pictures of 6 MHz and of 7 and 8 MHz channels (47 CFR 76.605; common practice). */
export const ANALOG_NOISE_MHZ = 4;
export const ANALOG_NOISE_EUROPE_MHZ = 4.75;

export const BANDWIDTH: Allowed = { unit: 'MHz', from: 1e-6, to: 10_000 };
const KELVIN: Allowed = { unit: 'K', from: 0.001, to: 10_000 };

/**
 * The thermal noise that a matched source delivers into 75 ohm: k T B.
 * @param bandwidthMhz  MHz
 * @param temperatureK  K, 0.001 or more; 290 when left out
 * @returns  dBmV, or a refusal
 * @source   k T B with the exact k of the SI; handbook rule of -59 dBmV in 4 MHz: telecommunications handbook sec. 17.3
 */
export function thermalNoiseDbmv(
  bandwidthMhz: number,
  temperatureK: number = NOISE_REFERENCE_K,
): Result<number, Unfit> {
  const wrong = unfit([
    ['noise bandwidth', bandwidthMhz, BANDWIDTH],
    ['temperature', temperatureK, KELVIN],
  ]);
  if (wrong !== null) return wrong;
  return done(dbmvFromWatt(BOLTZMANN * temperatureK * bandwidthMhz * 1e6));
}
