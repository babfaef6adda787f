import type { Channel, PlanName } from './channel.ts';
import { europeanChannels, europeanDigitalChannels } from './european.ts';
import { northAmericanChannels } from './north-american.ts';

/** In the order in which they are offered. */
export const PLAN_NAMES: readonly PlanName[] = ['std', 'irc', 'hrc', 'europe', 'europe-digital'];

const known: Readonly<Record<PlanName, readonly Channel[]>> = {
  std: northAmericanChannels('std'),
  irc: northAmericanChannels('irc'),
  hrc: northAmericanChannels('hrc'),
  europe: europeanChannels(),
  'europe-digital': europeanDigitalChannels(),
};

/**
 * All channels of a plan, made once.
 * @returns  in the plan's own order
 * @source   see `northAmericanChannels`, `europeanChannels` and `europeanDigitalChannels`
 */
export const channelsOf = (plan: PlanName): readonly Channel[] => known[plan];

/**
 * A plan as the trade calls it.
 * @returns  for a list on the screen
 * @source   47 CFR 76.605(b)(1) and 76.612 for STD, IRC and HRC; common practice for the European ones
 */
export function planTitle(plan: PlanName): string {
  switch (plan) {
    case 'std':
      return 'STD';
    case 'irc':
      return 'IRC';
    case 'hrc':
      return 'HRC';
    case 'europe':
      return 'Europe, 7 and 8 MHz';
    case 'europe-digital':
      return 'Europe, digital 8 MHz';
  }
}
