import { RATIO, type Unfit, unfit, unfitCount } from '../checked.ts';
import { done, type Result, refuse } from '../result.ts';

/**
 * Carrier to noise behind so many stations alike: their noises add as powers. Also the funnelling of a return path,
 * where the noise of so many branches alike adds.
 * @param cnrDb  dB of one station
 * @param count  stations, 1 or more, whole
 * @returns  dB, or a refusal
 * @source   C/N - 10 log N: cabl.com "CATV Formulas"
 */
export function cnrOfAlikeDb(cnrDb: number, count: number): Result<number, Unfit> {
  const wrong = unfit([['carrier to noise', cnrDb, RATIO]]) ?? unfitCount('stations', count);
  return wrong ?? done(cnrDb - 10 * Math.log10(count));
}

/**
 * Carrier to noise behind unlike stations.
 * @param cnrsDb  dB of each, all in the same bandwidth and for the same carrier; one or more
 * @returns  dB, or a refusal
 * @source   -10 log sum 10^(-CN/10): cabl.com "CATV Formulas"; Hranac, "Broadband: Total Power, Part 2"
 */
export function cnrOfUnlikeDb(cnrsDb: readonly number[]): Result<number, Unfit> {
  if (cnrsDb.length === 0) return refuse('out-of-range', '0 stations', 'give one station or more');
  const wrong = unfit(cnrsDb.map((cnrDb, i) => [`carrier to noise of station ${i + 1}`, cnrDb, RATIO]));
  if (wrong !== null) return wrong;
  return done(-10 * Math.log10(cnrsDb.reduce((sum, cnrDb) => sum + 10 ** (-cnrDb / 10), 0)));
}
