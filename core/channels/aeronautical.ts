import { HZ_PER_MHZ } from './hertz.ts';

type AeronauticalUse = 'communication' | 'navigation';

/** Bands in which a strong carrier must keep clear of the aircraft's own frequencies: 47 CFR 76.612(a) and (b). */
const bands: readonly Readonly<{ fromMhz: number; toMhz: number; use: AeronauticalUse }>[] = [
  { fromMhz: 108, toMhz: 118, use: 'navigation' },
  { fromMhz: 118, toMhz: 137, use: 'communication' },
  { fromMhz: 225, toMhz: 328.6, use: 'communication' },
  { fromMhz: 328.6, toMhz: 335.4, use: 'navigation' },
  { fromMhz: 335.4, toMhz: 400, use: 'communication' },
];

/**
 * Offset from the grid of the aircraft's frequencies. 76.612(a)(1): 12.5 kHz from what gives an integer when divided by
 * 0.025 MHz; (b): 25 kHz. The grid of 50 kHz of (b) is from memory: the text of (b)(1) and (2) could not be read in full.
 */
const offsetsHz: Readonly<Record<AeronauticalUse, number>> = { communication: 12_500, navigation: 25_000 };

/** The comb of harmonically related carriers: 76.612(a)(2). */
export const HRC_COMB_HZ = 6_000_300;

/** A frequency on the border of two bands belongs to the upper one; null outside them. */
const aeronauticalUse = (frequencyHz: number): AeronauticalUse | null =>
  bands.find(({ fromMhz, toMhz }) => frequencyHz >= fromMhz * HZ_PER_MHZ && frequencyHz < toMhz * HZ_PER_MHZ)
    ?.use ?? null;

/**
 * The offset that a carrier on the 0.25 MHz raster of the STD plan needs. On the border of two bands the upper one rules.
 * @param nominalHz  Hz, the carrier without an offset
 * @returns  Hz: 0, 12,500 or 25,000
 * @source   47 CFR 76.612
 */
export function aeronauticalOffsetHz(nominalHz: number): number {
  const use = aeronauticalUse(nominalHz);
  return use === null ? 0 : offsetsHz[use];
}
