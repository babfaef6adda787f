import type { Explained, Fitted } from './fitted.ts';

/** What is reckoned quickly is this near to what is reckoned plainly: a part of the gain, and a part of all squares. */
const SAME_PART = 1e-6;
const SAME_SQUARES = 1e-8;
/** A gain below this part of all squares would not be believed of fewer than ten million rows. */
const LEAST_PART = 1e-6;

/**
 * The part of a model that explains most, of many that were reckoned quickly: those that may be it are reckoned plainly, so
 * that the answer is the one of reckoning all of them plainly, to the last digit.
 * @param about    dB squared that each explains, about; NaN where that must be reckoned plainly
 * @param exactly  the same, plainly
 * @returns  the first of the best and what it explains; null where none explains enough to be believed
 * @throws   what `exactly` throws
 * @source   the definition; how near the quick sums are: see `explainedByEach`, held against the plain ones in the tests
 */
export function exactBest(
  { squaresDb2 }: Pick<Fitted, 'squaresDb2'>,
  about: Float64Array,
  exactly: (at: number) => Explained,
): Readonly<{ at: number; explained: Explained }> | null {
  let bestAbout = 0;
  for (const gainDb2 of about) if (gainDb2 > bestAbout) bestAbout = gainDb2;
  const fromDb2 = Math.max(bestAbout * (1 - SAME_PART) - squaresDb2 * SAME_SQUARES, squaresDb2 * LEAST_PART);
  let best: Readonly<{ at: number; explained: Explained }> | null = null;
  for (let at = 0; at < about.length; at++) {
    if ((about[at] as number) < fromDb2) continue;
    const explained = exactly(at);
    if (explained.gainDb2 > (best?.explained.gainDb2 ?? 0)) best = { at, explained };
  }
  return best;
}
