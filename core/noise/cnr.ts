import { type Allowed, LEVEL, type Unfit, unfit } from '../checked.ts';
import { done, type Result } from '../result.ts';
import { thermalNoiseDbmv } from './thermal-noise.ts';

const NOISE_FIGURE: Allowed = { unit: 'dB', from: 0, to: 100 };

/** What the noise of one station is reckoned from. */
export type StationNoise = Readonly<{
  noiseFigureDb: number;
  /** Noise bandwidth, MHz: 4 for an analog picture in 6 MHz. */
  bandwidthMhz: number;
}>;

/**
 * The noise at a station's input, as if all of it came from there.
 * @returns  dBmV in the bandwidth, or a refusal
 * @source   k T B + noise figure at 290 K; cabl.com "CATV Formulas": -59 + NF
 */
export function inputNoiseDbmv(station: StationNoise): Result<number, Unfit> {
  const wrong = unfit([['noise figure', station.noiseFigureDb, NOISE_FIGURE]]);
  if (wrong !== null) return wrong;
  const thermal = thermalNoiseDbmv(station.bandwidthMhz);
  return thermal.ok ? done(thermal.value + station.noiseFigureDb) : thermal;
}

/**
 * Carrier to noise of one station, from its input level.
 * @param inputDbmv  dBmV of the carrier at the input of the amplifier itself, behind its pad and equalizer
 * @returns  dB in the bandwidth, negative when the noise is stronger; or a refusal
 * @source   C/N = input - (-59 + NF): cabl.com "CATV Formulas", with k T B instead of the rounded -59
 */
export function cnrFromInputDb(inputDbmv: number, station: StationNoise): Result<number, Unfit> {
  const wrong = unfit([['input level', inputDbmv, LEVEL]]);
  if (wrong !== null) return wrong;
  const noise = inputNoiseDbmv(station);
  return noise.ok ? done(inputDbmv - noise.value) : noise;
}
