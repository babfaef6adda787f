import { done, type Result, refuse } from '../result.ts';

/** Level at position 0, and what is added at position 1. */
export type Line = Readonly<{ lowDbmv: number; tiltDb: number }>;

/**
 * Ordinary least squares of level on position, about the means, so that no digits are lost to large numbers.
 * @param position   0 at the low, 1 at the high design frequency; any order, no unit
 * @param levelDbmv  as many as positions, each finite
 * @returns  the line, or a refusal when fewer than two rows or only one frequency is left
 * @throws   RangeError when the two differ in length: no caller may do that
 * @source   contract, section 3, "fit, exactly"
 */
export function fitLine(
  position: ArrayLike<number>,
  levelDbmv: ArrayLike<number>,
): Result<Line, 'too-few' | 'one-frequency' | 'not-finite'> {
  const n = position.length;
  if (n !== levelDbmv.length) throw new RangeError(`${n} positions, ${levelDbmv.length} levels`);
  if (n < 2)
    return refuse('too-few', n === 1 ? '1 usable row' : 'no usable row', 'measure two carriers or more');
  let sumX = 0;
  let sumL = 0;
  for (let i = 0; i < n; i++) {
    sumX += position[i] ?? 0;
    sumL += levelDbmv[i] ?? 0;
  }
  const meanX = sumX / n;
  const meanL = sumL / n;
  let sxx = 0;
  let sxl = 0;
  let differ = false;
  for (let i = 0; i < n; i++) {
    if (position[i] !== position[0]) differ = true;
    const x = (position[i] ?? 0) - meanX;
    sxx += x * x;
    sxl += x * ((levelDbmv[i] ?? 0) - meanL);
  }
  if (!differ || sxx === 0) return refuse('one-frequency', 'every row', 'measure at two frequencies or more');
  const tiltDb = sxl / sxx;
  const lowDbmv = meanL - tiltDb * meanX;
  if (!Number.isFinite(tiltDb) || !Number.isFinite(lowDbmv))
    return refuse('not-finite', 'the levels', 'too large to compute with; look at their unit');
  return done({ lowDbmv, tiltDb });
}
