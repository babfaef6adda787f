import { done, type Result, refuse } from '../result.ts';
import type { PlanName } from './channel.ts';
import { type ChannelAt, channelAt } from './channel-at.ts';
import { PLAN_NAMES } from './plans.ts';

export type LikelyPlan = Readonly<{
  plan: PlanName;
  /** How many of the frequencies have a carrier or centre of that plan. */
  matchedCount: number;
  ofCount: number;
  /** Plans that fit exactly as well: which of them it is can't be told from the frequencies. */
  equallyLikely: readonly PlanName[];
}>;

/** Two plans whose distances differ by less than this a carrier are told apart by chance only. */
const SAME_WITHIN_KHZ = 1;

/**
 * The plan on which most of the frequencies of a sweep stand, and stand nearest.
 * @param frequenciesMhz  MHz; those that are no frequency are passed over
 * @returns  the plan and those that fit as well, or a refusal when no frequency stands on any plan
 * @source   common practice, no published source
 */
export function likelyPlan(frequenciesMhz: readonly number[]): Result<LikelyPlan, 'no-plan-fits'> {
  const scores = PLAN_NAMES.map((plan) => {
    const found = frequenciesMhz
      .map((frequencyMhz) => channelAt(frequencyMhz, plan))
      .filter((at): at is Readonly<{ ok: true; value: ChannelAt }> => at.ok);
    return {
      plan,
      count: found.length,
      offKhz: found.reduce((sum, at) => sum + Math.abs(at.value.offKhz), 0),
    };
  });
  const best = scores.reduce((a, b) =>
    b.count > a.count || (b.count === a.count && b.offKhz < a.offKhz) ? b : a,
  );
  if (best.count === 0)
    return refuse(
      'no-plan-fits',
      `${frequenciesMhz.length} frequencies`,
      'choose the channel plan, or enter the channels by hand',
    );
  return done({
    plan: best.plan,
    matchedCount: best.count,
    ofCount: frequenciesMhz.length,
    equallyLikely: scores
      .filter(
        (score) =>
          score.plan !== best.plan &&
          score.count === best.count &&
          score.offKhz - best.offKhz < SAME_WITHIN_KHZ * best.count,
      )
      .map((score) => score.plan),
  });
}
