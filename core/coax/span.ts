import { LENGTH_M, LOSS, type Unfit, unfit } from '../checked.ts';
import { done, type Result, refuse } from '../result.ts';
import { feetFromMetres, metresFromFeet } from '../units.ts';
import type { Cable } from './cables.ts';
import { lossPer100FtDb } from './loss.ts';

export type SpanUnfit = Unfit | 'outside-table';

/**
 * What a length of cable loses at 20 degrees C.
 * @param frequencyMhz  MHz, where the cable is known
 * @param lengthM       m, 0 or more
 * @returns  dB, positive, or a refusal
 * @source   loss is proportional to length; per 100 ft: see `lossPer100FtDb`
 */
export function spanLossDb(cable: Cable, frequencyMhz: number, lengthM: number): Result<number, SpanUnfit> {
  const wrong = unfit([['length', lengthM, LENGTH_M]]);
  if (wrong !== null) return wrong;
  const loss = lossPer100FtDb(cable, frequencyMhz);
  return loss.ok ? done((loss.value.per100FtDb * feetFromMetres(lengthM)) / 100) : loss;
}

/**
 * How long a cable is that loses so much at 20 degrees C.
 * @param frequencyMhz  MHz, where the cable is known
 * @param lossDb        dB, 0 or more
 * @returns  m, or a refusal
 * @source   loss is proportional to length; per 100 ft: see `lossPer100FtDb`
 */
export function lengthForLossM(
  cable: Cable,
  frequencyMhz: number,
  lossDb: number,
): Result<number, SpanUnfit> {
  const wrong = unfit([['loss', lossDb, LOSS]]);
  if (wrong !== null) return wrong;
  const loss = lossPer100FtDb(cable, frequencyMhz);
  return loss.ok ? done(metresFromFeet((100 * lossDb) / loss.value.per100FtDb)) : loss;
}

/**
 * Loss at a low frequency as a part of that at a high one.
 * @param lowMhz   MHz
 * @param highMhz  MHz, above lowMhz
 * @returns  0 to 1, no unit, or a refusal
 * @source   cabl.com "CATV Formulas": the ratio L_lo/L_hi of tilt = L_hi (1 - L_lo/L_hi)
 */
export function lossRatio(
  cable: Cable,
  lowMhz: number,
  highMhz: number,
): Result<number, SpanUnfit | 'low-above-high'> {
  const low = lossPer100FtDb(cable, lowMhz);
  if (!low.ok) return low;
  const high = lossPer100FtDb(cable, highMhz);
  if (!high.ok) return high;
  if (lowMhz >= highMhz)
    return refuse(
      'low-above-high',
      `${lowMhz} to ${highMhz} MHz`,
      'the low frequency must lie below the high one',
    );
  return done(low.value.per100FtDb / high.value.per100FtDb);
}

/**
 * How much more a span loses at the high frequency than at the low one.
 * @param lossDb   dB at highMhz, 0 or more
 * @param lowMhz   MHz
 * @param highMhz  MHz, above lowMhz
 * @returns  dB, positive, or a refusal
 * @source   cabl.com "CATV Formulas": tilt = L_hi (1 - L_lo/L_hi); its example, 20 dB of .750 from 54 to 450 MHz
 */
export function tiltOfLossDb(
  cable: Cable,
  lossDb: number,
  lowMhz: number,
  highMhz: number,
): Result<number, SpanUnfit | 'low-above-high'> {
  const wrong = unfit([['loss', lossDb, LOSS]]);
  if (wrong !== null) return wrong;
  const ratio = lossRatio(cable, lowMhz, highMhz);
  return ratio.ok ? done(lossDb * (1 - ratio.value)) : ratio;
}

/**
 * The tilt of a length of cable.
 * @param lengthM  m, 0 or more
 * @param lowMhz   MHz
 * @param highMhz  MHz, above lowMhz
 * @returns  dB by which it loses more at highMhz, or a refusal
 * @source   cabl.com "CATV Formulas"
 */
export function spanTiltDb(
  cable: Cable,
  lengthM: number,
  lowMhz: number,
  highMhz: number,
): Result<number, SpanUnfit | 'low-above-high'> {
  const lossDb = spanLossDb(cable, highMhz, lengthM);
  return lossDb.ok ? tiltOfLossDb(cable, lossDb.value, lowMhz, highMhz) : lossDb;
}
