import { type Allowed, LEVEL, type Unfit, unfit } from '../checked.ts';
import { done, type Result } from '../result.ts';

/** OFDM power is stated in bands of this width: DOCS-IF31-MIB, docsIf31CmtsDsOfdmChanPowerBandIndex. */
export const OFDM_BAND_MHZ = 6;

const OCCUPIED: Allowed = { unit: 'MHz', from: 0.001, to: 2000 };

/**
 * What a whole OFDM signal has, from its level in 6 MHz.
 * @param perSixDbmv   dBmV in 6 MHz
 * @param occupiedMhz  width that carries power, MHz, above 0
 * @returns  dBmV in the whole signal, or a refusal of a number that makes no sense
 * @source   arithmetic: per 6 MHz + 10 log(width/6); bands of 6 MHz: DOCS-IF31-MIB
 */
export const totalFromPerSixMhzDbmv = (perSixDbmv: number, occupiedMhz: number): Result<number, Unfit> =>
  unfit([
    ['level per 6 MHz', perSixDbmv, LEVEL],
    ['occupied width', occupiedMhz, OCCUPIED],
  ]) ?? done(perSixDbmv + 10 * Math.log10(occupiedMhz / OFDM_BAND_MHZ));
