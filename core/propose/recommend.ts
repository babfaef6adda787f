import { byChanges, byWorstThenChanges, type Found, SAME_DB } from './rank.ts';

export type Recommendation = Readonly<{
  best: Found;
  recommended: Found;
  alternatives: readonly Found[];
  /** By rising number of changes, each with a better worst channel than any with fewer; staying comes first. */
  pareto: readonly Found[];
}>;

/** More changes than recommended must buy at least this, or they are worse in every respect that counts. */
const MORE_CHANGES_BUY_DB = 0.1;

/**
 * From the first few combinations for each number of changes: the best, the one to do, and what else is nearly as good.
 *
 * Alternatives are first those that no other betters in both changes and worst channel, by rising number of changes;
 * then more of those that are as good as the recommendation has to be. Changing nothing is never an alternative, nor is
 * what needs more changes than recommended and is not at least 0.1 dB better.
 * @param lists    index = number of changes, each list in the order of byWorstThenPad
 * @param options  toleranceDb and slackDb in dB; most alternatives wanted
 * @returns  the three, or null when there is no combination at all
 * @source   contract, section 3, `best` and `recommended`
 */
export function recommend(
  lists: readonly (readonly Found[])[],
  options: Readonly<{ toleranceDb: number; slackDb: number; maxAlternatives: number }>,
): Recommendation | null {
  const firsts = lists.flatMap((list) => list.slice(0, 1));
  const best = firsts.toSorted(byWorstThenChanges)[0];
  if (best === undefined) return null;
  const enoughDb = Math.max(options.toleranceDb, best.worstDb + options.slackDb) + SAME_DB;
  const recommended = firsts.find((found) => found.worstDb <= enoughDb) ?? best;

  const pareto: Found[] = [];
  for (const found of firsts)
    if (found.worstDb < (pareto.at(-1)?.worstDb ?? Infinity) - SAME_DB) pareto.push(found);
  const isWorthIt = (found: Found): boolean =>
    found !== recommended &&
    found.changeCount > 0 &&
    (found.changeCount <= recommended.changeCount ||
      found.worstDb <= recommended.worstDb - MORE_CHANGES_BUY_DB + SAME_DB);
  const more = lists
    .flat()
    .filter((found) => found.worstDb <= enoughDb && isWorthIt(found) && !pareto.includes(found))
    .sort(byChanges);
  return {
    best,
    recommended,
    alternatives: [...pareto.filter(isWorthIt), ...more].slice(0, options.maxAlternatives),
    pareto,
  };
}
