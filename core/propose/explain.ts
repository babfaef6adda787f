import type { Design } from '../files/station.ts';
import type { Choice } from './objective.ts';
import type { Proposal } from './propose.ts';
import { SAME_DB } from './rank.ts';

/** From this share of the worst channel on, half of peak to valley is "the rest"; from the lower one on, "about half". */
const NEARLY_ALL = 0.75;
const ABOUT_HALF = 0.4;

const db = (valueDb: number): string => valueDb.toFixed(1);

/**
 * How much of what is left is shape: half of peak to valley about the fitted line, as a share of the worst channel. No
 * pad mends that, and an equalizer only by its own bend.
 * @param choice  worst channel and flatness in dB
 * @returns  0 to 1
 * @source   common practice, no published source
 */
export const shapeShare = (choice: Pick<Choice, 'worstDb' | 'flatnessDb'>): number =>
  choice.worstDb <= SAME_DB ? 0 : Math.min(1, choice.flatnessDb / 2 / choice.worstDb);

/**
 * A proposal in one or two sentences: what it will give, and what it leaves.
 * @param proposal  as propose made it
 * @param design    the port's design: its tolerance says whether what is left is worth a word
 * @returns  plain text, dB with one decimal, the trims after the plug-ins; begins with the stage input's limit where no combination meets it
 * @source   common practice, no published source
 */
export function explainProposal(proposal: Proposal, design: Design): string {
  const { before, best, recommended, feasible, stageInput } = proposal;
  const first = feasible || stageInput === null ? [] : [stageInput.note];
  const after = `worst channel ${db(recommended.worstDb)} dB from design.`;
  const gain =
    recommended.changes.length > 0
      ? `Worst channel ${db(before.worstDb)} → ${db(recommended.worstDb)} dB from design.`
      : recommended.worstDb <= design.toleranceDb + SAME_DB
        ? `Nothing to change: ${after}`
        : `No change buys enough: ${after}`;
  const { withTrims } = recommended;
  if (withTrims === undefined)
    return [...first, gain, ...restOf(best, recommended, design, feasible)].join(' ');
  const moves = withTrims.moves.map(({ text }) => text).join(', ');
  const trims = `Then ${moves}: ${db(withTrims.worstDb)} dB.`;
  const left = { ...recommended, worstDb: withTrims.worstDb, flatnessDb: withTrims.flatnessDb };
  const bestLeft = best.withTrims ?? best;
  return [...first, gain, trims, ...restOf({ ...best, ...bestLeft }, left, design, feasible)].join(' ');
}

function restOf(best: Choice, recommended: Choice, design: Design, feasible: boolean): string[] {
  const { toleranceDb } = design;
  if (recommended.worstDb <= toleranceDb / 2 || !feasible) return [];
  // Only the best combination can show that no plug-in mends the rest; the recommended one may leave some on purpose.
  const boughtDb = recommended.worstDb - best.worstDb;
  const share = Math.min(1, shapeShare(best) * (best.worstDb / recommended.worstDb));
  if (share >= NEARLY_ALL) return ['The rest is shape: no plug-in mends it.'];
  if (share >= ABOUT_HALF) return ['About half of it is shape: no plug-in mends that.'];
  const more = best.changes.length - recommended.changes.length;
  if (more > 0 && boughtDb >= 0.05)
    return [`${more} more ${more === 1 ? 'change' : 'changes'} would bring it to ${db(best.worstDb)} dB.`];
  return recommended.worstDb > toleranceDb + SAME_DB ? ['Nothing in the kit brings it nearer.'] : [];
}
