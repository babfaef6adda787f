import { chanceOfT } from './student-t.ts';

/** The same few are asked for thousands of times over: what was found once is kept. */
const known = new Map<string, number>();

/**
 * How far Student's t lies from 0, on either side, as often as this.
 * @param chance   of lying at least so far out, two-sided, above 0 and below 1
 * @param freedom  degrees of freedom, above 0
 * @returns  t, above 0, no unit
 * @throws   RangeError on a chance or a freedom that is none
 * @source   inverse of `chanceOfT` by halving
 */
export function tQuantile(chance: number, freedom: number): number {
  if (!(chance > 0 && chance < 1)) throw new RangeError(`a chance of ${chance}`);
  const key = `${chance} ${freedom}`;
  const before = known.get(key);
  if (before !== undefined) return before;
  let from = 0;
  let to = 1;
  while (chanceOfT(to, freedom) > chance) to *= 2;
  for (let halving = 0; halving < 60; halving++) {
    const middle = (from + to) / 2;
    if (chanceOfT(middle, freedom) > chance) from = middle;
    else to = middle;
  }
  const found = (from + to) / 2;
  known.set(key, found);
  return found;
}
