import type { PlanName } from '../channels/channel.ts';
import { channelAt } from '../channels/channel-at.ts';
import { likelyPlan } from '../channels/likely-plan.ts';
import { planTitle } from '../channels/plans.ts';

/** Whether the analog carriers of a network are tied to one comb, and by what that is told. */
export type Coherence = Readonly<{ isCoherent: boolean; why: string }>;

/** IRC lies 12.5 kHz above STD: what is off by less than half of that cannot be a rounded frequency of the other plan. */
const ON_COMB_KHZ = 5;
const isComb = (plan: PlanName): boolean => plan === 'irc' || plan === 'hrc';
const loose = (why: string): Coherence => ({ isCoherent: false, why });

/**
 * Whether analog carriers stand on the comb of a coherent plan (IRC, HRC). In doubt they do not: the limit for carriers that
 * are not coherent is the stricter one.
 * @param analogMhz  MHz, the visual carriers of the line-up or of a sweep
 * @returns  coherent only where every one of two carriers or more stands on the comb to 5 kHz and no other plan fits as well
 * @source   IRC and HRC are the coherent plans: 47 CFR 76.612(a)(2) for the comb of HRC, IRC from memory; 5 kHz is ours
 */
export function coherenceOf(analogMhz: readonly number[]): Coherence {
  if (analogMhz.length < 2) return loose('fewer than two analog carriers make no comb');
  const likely = likelyPlan(analogMhz);
  if (!likely.ok) return loose('the analog carriers stand on no channel plan');
  const { plan, equallyLikely } = likely.value;
  const name = planTitle(plan);
  const alike = [plan, ...equallyLikely];
  if (!alike.some(isComb)) return loose(`the analog carriers stand on ${name}, which is no comb`);
  if (!alike.every(isComb))
    return loose(`${alike.map(planTitle).join(' and ')} fit the analog carriers alike`);
  const off = analogMhz.filter((frequencyMhz) => {
    const at = channelAt(frequencyMhz, plan);
    return !at.ok || at.value.place !== 'visual carrier' || Math.abs(at.value.offKhz) > ON_COMB_KHZ;
  });
  if (off.length > 0)
    return loose(`${off.length} of ${analogMhz.length} analog carriers stand off the comb of ${name}`);
  return { isCoherent: true, why: `all ${analogMhz.length} analog carriers stand on the comb of ${name}` };
}
