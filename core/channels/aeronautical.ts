import { FREQUENCY, type Unfit, unfit } from '../checked.ts';
import { done, type Result } from '../result.ts';
import type { PlanName } from './channel.ts';
import { HZ_PER_MHZ, hzFromMhz } from './hertz.ts';

export type AeronauticalUse = 'communication' | 'navigation';

/** Bands in which a strong carrier must keep clear of the aircraft's own frequencies: 47 CFR 76.612(a) and (b). */
const bands: readonly Readonly<{ fromMhz: number; toMhz: number; use: AeronauticalUse }>[] = [
  { fromMhz: 108, toMhz: 118, use: 'navigation' },
  { fromMhz: 118, toMhz: 137, use: 'communication' },
  { fromMhz: 225, toMhz: 328.6, use: 'communication' },
  { fromMhz: 328.6, toMhz: 335.4, use: 'navigation' },
  { fromMhz: 335.4, toMhz: 400, use: 'communication' },
];

/** Offset from the grid of the aircraft's frequencies, and the step of that grid. */
const rules: Readonly<Record<AeronauticalUse, Readonly<{ offsetHz: number; gridHz: number }>>> = {
  // 76.612(a)(1): 12.5 kHz from what gives an integer when divided by 0.025 MHz.
  communication: { offsetHz: 12_500, gridHz: 25_000 },
  // 76.612(b): 25 kHz. The step of 50 kHz is from memory: the text of (b)(1) and (2) could not be read in full.
  navigation: { offsetHz: 25_000, gridHz: 50_000 },
};
const TOLERANCE_HZ = 5_000;

/** The comb of harmonically related carriers: 76.612(a)(2). */
export const HRC_COMB_HZ = 6_000_300;

/**
 * Which kind of aircraft radio uses a frequency.
 * @param frequencyHz  Hz
 * @returns  null outside the bands; a frequency on the border of two belongs to the upper one
 * @source   47 CFR 76.612(a) and (b)
 */
export const aeronauticalUse = (frequencyHz: number): AeronauticalUse | null =>
  bands.find(({ fromMhz, toMhz }) => frequencyHz >= fromMhz * HZ_PER_MHZ && frequencyHz < toMhz * HZ_PER_MHZ)
    ?.use ?? null;

/**
 * The offset that a carrier on the 0.25 MHz raster of the STD plan needs.
 * @param nominalHz  Hz, the carrier without an offset
 * @returns  Hz: 0, 12,500 or 25,000
 * @source   47 CFR 76.612
 */
export function aeronauticalOffsetHz(nominalHz: number): number {
  const use = aeronauticalUse(nominalHz);
  return use === null ? 0 : rules[use].offsetHz;
}

export type AeronauticalStanding = Readonly<{
  use: AeronauticalUse | null;
  /** Distance from the nearest aircraft frequency, kHz; null outside the bands. */
  clearKhz: number | null;
  /** Where it should be, within 5 kHz; null outside the bands. */
  wantedKhz: number | null;
  /** By what the carrier meets the rule, or that it does not. The power from which the rule counts is not looked at. */
  meets: 'no rule here' | 'offset' | 'comb' | 'not met';
}>;

/**
 * Whether a carrier keeps the distance that aircraft radio needs.
 * @param frequencyMhz  MHz, the carrier
 * @param plan          only `hrc` may meet the rule by its comb, and only in the communication bands
 * @returns  the standing, or a refusal of what is no frequency. The rule counts from 1e-4 W (+38.75 dBmV) on.
 * @source   47 CFR 76.612 and 76.610; the navigation grid of 50 kHz is from memory
 */
export function aeronauticalStanding(
  frequencyMhz: number,
  plan: PlanName,
): Result<AeronauticalStanding, Unfit> {
  const wrong = unfit([['frequency', frequencyMhz, FREQUENCY]]);
  if (wrong !== null) return wrong;
  const frequencyHz = hzFromMhz(frequencyMhz);
  const use = aeronauticalUse(frequencyHz);
  if (use === null) return done({ use, clearKhz: null, wantedKhz: null, meets: 'no rule here' });
  const { offsetHz, gridHz } = rules[use];
  const clearHz = Math.abs(frequencyHz - Math.round(frequencyHz / gridHz) * gridHz);
  const harmonic = Math.round(frequencyHz / HRC_COMB_HZ);
  const onComb = Math.abs(frequencyHz - harmonic * HRC_COMB_HZ) <= harmonic;
  const meets =
    Math.abs(clearHz - offsetHz) <= TOLERANCE_HZ
      ? 'offset'
      : plan === 'hrc' && use === 'communication' && onComb
        ? 'comb'
        : 'not met';
  return done({ use, clearKhz: clearHz / 1000, wantedKhz: offsetHz / 1000, meets });
}
