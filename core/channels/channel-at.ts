import { type Allowed, FREQUENCY, type Unfit, unfit } from '../checked.ts';
import { done, type Result, refuse } from '../result.ts';
import type { Channel, PlanName } from './channel.ts';
import { hzFromMhz } from './hertz.ts';
import { channelsOf, PLAN_NAMES, planTitle } from './plans.ts';

/** How far a reading may lie from a carrier and still be that carrier. Common practice, no published source. */
export const CARRIER_WITHIN_MHZ = 0.25;
/** A visual carrier and a centre are 1.75 MHz apart or more; half of that could belong to either. */
const TOLERANCE: Allowed = { unit: 'MHz', from: 0, to: 0.85 };

export type Place = 'visual carrier' | 'center';
export type ChannelAt = Readonly<{
  channel: Channel;
  place: Place;
  /** Reading less carrier or centre, kHz, with its sign. */
  offKhz: number;
}>;

function nearest(frequencyHz: number, plan: PlanName): ChannelAt | null {
  let best: ChannelAt | null = null;
  const consider = (channel: Channel, place: Place, placeMhz: number) => {
    const offKhz = (frequencyHz - hzFromMhz(placeMhz)) / 1000;
    if (best === null || Math.abs(offKhz) < Math.abs(best.offKhz)) best = { channel, place, offKhz };
  };
  for (const channel of channelsOf(plan)) {
    if (channel.visualMhz !== null) consider(channel, 'visual carrier', channel.visualMhz);
    consider(channel, 'center', channel.centerMhz);
    consider(channel, 'center', channel.centerWithOffsetMhz);
  }
  return best;
}

const within = (found: ChannelAt | null, toleranceMhz: number): found is ChannelAt =>
  found !== null && Math.abs(found.offKhz) <= toleranceMhz * 1000;

/**
 * The channel of a plan whose visual carrier or centre (nominal, or with the carrier's offset) is nearest.
 * @param frequencyMhz  MHz, above 0
 * @param toleranceMhz  how far it may lie off, 0 to 0.85 MHz; CARRIER_WITHIN_MHZ when left out
 * @returns  the channel, which of its places it is and how far off; a refusal `not-in-plan` that names the plans that
 *           do have a carrier there, or `outside-every-plan`
 * @source   the plans: see `channelsOf`; the tolerance is common practice, no published source
 */
export function channelAt(
  frequencyMhz: number,
  plan: PlanName,
  toleranceMhz: number = CARRIER_WITHIN_MHZ,
): Result<ChannelAt, Unfit | 'not-in-plan' | 'outside-every-plan'> {
  const wrong = unfit([
    ['frequency', frequencyMhz, FREQUENCY],
    ['tolerance', toleranceMhz, TOLERANCE],
  ]);
  if (wrong !== null) return wrong;
  const frequencyHz = hzFromMhz(frequencyMhz);
  const found = nearest(frequencyHz, plan);
  if (within(found, toleranceMhz)) return done(found);
  const others = PLAN_NAMES.filter(
    (other) => other !== plan && within(nearest(frequencyHz, other), toleranceMhz),
  );
  return others.length === 0
    ? refuse(
        'outside-every-plan',
        `${frequencyMhz} MHz`,
        'outside every plan: no visual carrier and no channel centre is there',
      )
    : refuse(
        'not-in-plan',
        `${frequencyMhz} MHz`,
        `no carrier of ${planTitle(plan)} is there; look at ${others.map(planTitle).join(', ')}`,
      );
}
