import { LEVEL, type Unfit, unfit, unfitCount } from '../checked.ts';
import { done, type Result } from '../result.ts';

/**
 * The power of so many signals of one level.
 * @param levelDbmv  dBmV of each
 * @param count      signals, 1 or more, whole
 * @returns  dBmV of all together, or a refusal
 * @source   + 10 log n: Hranac, "Broadband: Total Power"
 */
export function totalOfEqualDbmv(levelDbmv: number, count: number): Result<number, Unfit> {
  const wrong = unfit([['level', levelDbmv, LEVEL]]) ?? unfitCount('signals', count);
  return wrong ?? done(levelDbmv + 10 * Math.log10(count));
}
