import { RATIO, type Unfit, unfit } from '../checked.ts';
import { done, type Result } from '../result.ts';

/** Signal to noise as the eye weighs it, less carrier to noise in 4 MHz, dB. */
const WEIGHTED_LESS_CNR_DB = 2.7;

/**
 * Signal to noise of an analog picture, weighted by what the eye sees of it, from its carrier to noise in 4 MHz.
 * @param cnrDb  dB
 * @returns  dB, or a refusal
 * @source   telecommunications handbook p. 436, equation 17.5: S/N = C/N + 2.7 weighted
 */
export const weightedVideoSnrDb = (cnrDb: number): Result<number, Unfit> =>
  unfit([['carrier to noise', cnrDb, RATIO]]) ?? done(cnrDb + WEIGHTED_LESS_CNR_DB);
