import { aeronauticalOffsetHz, HRC_COMB_HZ } from './aeronautical.ts';
import type { Channel } from './channel.ts';
import { HZ_PER_MHZ, mhzFromHz } from './hertz.ts';

export type NorthAmericanPlan = 'std' | 'hrc' | 'irc';

const LAST = 158;
const WIDTH_HZ = 6 * HZ_PER_MHZ;
/** Lower edge to visual carrier: repairfaq.org "tvnocbfreq"; the same in every table that was compared. */
const EDGE_TO_VISUAL_HZ = 1_250_000;
/** 47 CFR 76.605(b)(2): visual + 4.5 MHz, plus or minus 5 kHz. */
const VISUAL_TO_AURAL_HZ = 4_500_000;
const VISUAL_TO_CENTER_HZ = WIDTH_HZ / 2 - EDGE_TO_VISUAL_HZ;
/** Every IRC carrier stands 12.5 kHz above the STD raster, in or out of the aeronautical bands. */
const IRC_OFFSET_HZ = 12_500;
/**
 * Channels 98 and 99 lie in the navigation band, where the comb is no excuse (76.612(b)). The HRC file of
 * dtv-scan-tables that carries the number of the standard has 108.0250 and 114.0250; its older file has the comb's
 * 108.0054 and 114.0057, which do not meet the rule.
 */
const HRC_EXCEPTIONS_HZ: Readonly<Record<number, number>> = { 98: 108_025_000, 99: 114_025_000 };

/**
 * Lower edge in whole MHz. Channels 1, 5 and 6 are where the plans part: HRC and IRC are one comb (72, 78, 84),
 * STD has its gap of 4 MHz at 72 and begins 5 at 76. dtv-scan-tables puts IRC and HRC 5 and 6 at the STD places
 * (77.2625, 76.0039), which are no members of the comb; the appendix of "Broadband Cable TV Access Networks"
 * (Prentice Hall 2001) has 79.2625 and 78.0039, as here.
 */
function edgeMhz(plan: NorthAmericanPlan, number: number): number {
  if (number === 1) return 72;
  if (number <= 4) return 54 + 6 * (number - 2);
  if (number <= 6) return (plan === 'std' ? 76 : 78) + 6 * (number - 5);
  if (number <= 13) return 174 + 6 * (number - 7);
  if (number <= 22) return 120 + 6 * (number - 14);
  if (number <= 94) return 216 + 6 * (number - 23);
  if (number <= 99) return 90 + 6 * (number - 95);
  return 648 + 6 * (number - 100);
}

/** The visual carrier, and the lower edge to which its offset is reckoned, in Hz. */
function placesHz(plan: NorthAmericanPlan, number: number): Readonly<{ edgeHz: number; visualHz: number }> {
  const edge = edgeMhz(plan, number);
  const edgeHz = edge * HZ_PER_MHZ;
  const nominalHz = edgeHz + EDGE_TO_VISUAL_HZ;
  switch (plan) {
    case 'std':
      return { edgeHz, visualHz: nominalHz + aeronauticalOffsetHz(nominalHz) };
    case 'irc':
      // Two tables disagree: dtv-scan-tables implies 55.2750 for channel 2 (CEA-542-C as quoted by Hranac, March 2012:
      // 55.2625) and 12.5 kHz for 98 and 99, where 76.612(b) wants 25.
      return { edgeHz, visualHz: nominalHz + Math.max(IRC_OFFSET_HZ, aeronauticalOffsetHz(nominalHz)) };
    case 'hrc': {
      // Channel 42 (330.0165) is in the navigation band, 16.5 kHz from the assumed grid: it does not meet 76.612(b).
      // Every table that was compared has it so; it is left as it is.
      const combHz = (edge / 6) * HRC_COMB_HZ;
      return { edgeHz: combHz - EDGE_TO_VISUAL_HZ, visualHz: HRC_EXCEPTIONS_HZ[number] ?? combHz };
    }
  }
}

function channel(plan: NorthAmericanPlan, number: number): Channel {
  const { edgeHz, visualHz } = placesHz(plan, number);
  return {
    plan,
    label: String(number),
    lowerEdgeMhz: mhzFromHz(edgeHz),
    upperEdgeMhz: mhzFromHz(edgeHz + WIDTH_HZ),
    widthMhz: mhzFromHz(WIDTH_HZ),
    visualMhz: mhzFromHz(visualHz),
    auralMhz: mhzFromHz(visualHz + VISUAL_TO_AURAL_HZ),
    visualOffsetKhz: (visualHz - edgeHz - EDGE_TO_VISUAL_HZ) / 1000,
    centerMhz: mhzFromHz(edgeHz + WIDTH_HZ / 2),
    centerWithOffsetMhz: mhzFromHz(visualHz + VISUAL_TO_CENTER_HZ),
  };
}

/**
 * All channels of a North American plan, made by rule. Above 125 the rule of IRC and HRC is continued: no public table that
 * could be read goes higher.
 * @returns  158 channels in the order of their numbers; 157 for STD, which has no channel 1, because its channel 5 begins at
 *           76 MHz
 * @source   CTA-542 by way of Hranac, "Untangling Some of the Confusion", Communications Technology, March 2012;
 *           dtv-scan-tables and xawtv channel lists; 47 CFR 76.605(b) and 76.612
 */
export const northAmericanChannels = (plan: NorthAmericanPlan): readonly Channel[] =>
  Array.from({ length: LAST }, (_, i) => i + 1)
    .filter((number) => plan !== 'std' || number !== 1)
    .map((number) => channel(plan, number));
