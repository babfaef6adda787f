import { LEVEL, type Unfit, unfit } from '../checked.ts';
import { done, type Result, refuse } from '../result.ts';

/**
 * The power of signals together.
 * @param levelsDbmv  dBmV of each, one or more
 * @returns  dBmV of all together, or a refusal
 * @source   10 log of the sum of powers; of n equal levels + 10 log n: Hranac, "Broadband: Total Power"
 */
export function totalDbmv(levelsDbmv: readonly number[]): Result<number, Unfit> {
  if (levelsDbmv.length === 0) return refuse('out-of-range', '0 signals', 'give one level or more');
  const wrong = unfit(levelsDbmv.map((levelDbmv, i) => [`level ${i + 1}`, levelDbmv, LEVEL]));
  return wrong ?? done(10 * Math.log10(levelsDbmv.reduce((sum, one) => sum + 10 ** (one / 10), 0)));
}
