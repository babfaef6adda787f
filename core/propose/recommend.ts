import { byChanges, byWorstThenChanges, type Found, SAME_DB } from './rank.ts';

export type Recommendation = Readonly<{
  best: Found;
  recommended: Found;
  alternatives: readonly Found[];
}>;

/**
 * From the first few combinations for each number of changes: the best, the one to do, and what else is nearly as good.
 *
 * Alternatives are first those that no other betters in both changes and worst channel, by rising number of changes;
 * then more of those that are as good as the recommendation has to be. Changing nothing is never an alternative.
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

  const alternatives: Found[] = [];
  let leastDb = Infinity;
  for (const found of firsts) {
    if (found.worstDb >= leastDb - SAME_DB) continue;
    leastDb = found.worstDb;
    if (found !== recommended && found.changeCount > 0) alternatives.push(found);
  }
  const more = lists
    .flat()
    .filter((found) => found.worstDb <= enoughDb && found.changeCount > 0)
    .filter((found) => found !== recommended && !alternatives.includes(found))
    .sort(byChanges);
  return {
    best,
    recommended,
    alternatives: [...alternatives, ...more].slice(0, options.maxAlternatives),
  };
}
