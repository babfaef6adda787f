/** Differences below this are rounding, not dB: a billionth. */
export const SAME_DB = 1e-9;

/** Below 0 when a is less; equal within a billionth, so that the order of additions never decides. */
const compareDb = (aDb: number, bDb: number): number => (Math.abs(aDb - bDb) <= SAME_DB ? 0 : aDb - bDb);

/** One combination that the search has found. */
export type Found = Readonly<{
  worstDb: number;
  changeCount: number;
  /** Sum of the pads' values. */
  padDb: number;
  /** A candidate's index for each free position, in their order. */
  indices: readonly number[];
}>;

/**
 * Which of two combinations with as many changes goes first: least worst channel, then least pad, then smaller values
 * in the positions' order.
 * @returns  below 0 when a goes first, above 0 when b does
 * @source   contract, section 3, "then the least worst, then the least total pad"; the order of values settles the rest
 */
export function byWorstThenPad(a: Found, b: Found): number {
  return compareDb(a.worstDb, b.worstDb) || compareDb(a.padDb, b.padDb) || byOrder(a.indices, b.indices);
}

/**
 * The same for any number of changes: after the worst channel, fewest changes.
 * @returns  below 0 when a goes first, above 0 when b does
 * @source   contract, section 3, `best`; its ties are settled as those of `recommended`
 */
export function byWorstThenChanges(a: Found, b: Found): number {
  return compareDb(a.worstDb, b.worstDb) || a.changeCount - b.changeCount || byWorstThenPad(a, b);
}

/**
 * Fewest changes first.
 * @returns  below 0 when a goes first, above 0 when b does
 * @source   contract, section 3, `recommended`
 */
export const byChanges = (a: Found, b: Found): number =>
  a.changeCount - b.changeCount || byWorstThenPad(a, b);

/**
 * Smaller candidates first, position by position.
 * @returns  below 0 when a goes first, above 0 when b does
 * @source   common practice, no published source
 */
export function byOrder(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < a.length; i++) {
    const difference = (a[i] ?? 0) - (b[i] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
}
