import type { Distortion } from './distortion.ts';

/** A noise figure stands on a data sheet as a typical value, within about this of what one amplifier has, dB. */
const NOISE_DB = 1;
/** Distortions spread more, from amplifier to amplifier and over temperature, dB. */
const DISTORTION_DB = 2;

/**
 * How far a figure reckoned from data sheets may lie from what the amplifiers really do. Nearer to its limit than that
 * it decides nothing.
 * @returns  dB, either way
 * @source   common practice, no published source
 */
export function sheetDoubtDb(key: Distortion | 'cnr' | 'mer'): number {
  switch (key) {
    case 'cnr':
      return NOISE_DB;
    case 'ctb':
    case 'cso':
    case 'xmod':
    case 'mer':
      return DISTORTION_DB;
  }
}
