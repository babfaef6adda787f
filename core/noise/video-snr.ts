import { RATIO, type Unfit, unfit } from '../checked.ts';
import { done, type Result } from '../result.ts';

/** How the noise of a picture is weighed: as it is, peak to peak against rms, or by what the eye sees of it. */
export type VideoWeighting = 'unweighted' | 'weighted';

/** S/N less C/N in 4 MHz, dB. */
const SNR_LESS_CNR_DB: Readonly<Record<VideoWeighting, number>> = { unweighted: -4.1, weighted: 2.7 };

/**
 * Signal to noise of an analog picture from its carrier to noise in 4 MHz.
 * @param cnrDb  dB
 * @returns  dB, or a refusal
 * @source   telecommunications handbook p. 436, equations 17.4 and 17.5: C/N = S/N + 4.1; S/N = C/N + 2.7 weighted
 */
export const videoSnrDb = (cnrDb: number, weighting: VideoWeighting): Result<number, Unfit> =>
  unfit([['carrier to noise', cnrDb, RATIO]]) ?? done(cnrDb + SNR_LESS_CNR_DB[weighting]);

/**
 * Carrier to noise in 4 MHz from the signal to noise of an analog picture.
 * @param snrDb  dB
 * @returns  dB, or a refusal
 * @source   telecommunications handbook p. 436, equations 17.4 and 17.5
 */
export const cnrFromVideoSnrDb = (snrDb: number, weighting: VideoWeighting): Result<number, Unfit> =>
  unfit([['signal to noise', snrDb, RATIO]]) ?? done(snrDb - SNR_LESS_CNR_DB[weighting]);
