import { RATIO, type Unfit, unfit } from '../checked.ts';
import { done, type Result } from '../result.ts';
import { cnrOfUnlikeDb } from './cascade.ts';
import { BANDWIDTH } from './thermal-noise.ts';

/** Symbol rates of ITU-T J.83 Annex B, millions a second: the noise bandwidth of a receiver with a matched filter. */
export const J83B_64_QAM_MSYM = 5.056941;
export const J83B_256_QAM_MSYM = 5.360537;

export type MerInput = Readonly<{
  /** Carrier to noise, dB, as reckoned or measured for one carrier in one bandwidth. */
  cnrDb: number;
  cnrBandwidthMhz: number;
  /** Average power of the digital signal less the level that the carrier to noise was reckoned for, dB (-6, say). */
  levelOffsetDb: number;
  symbolRateMsym: number;
  /** Other things that blur the constellation, each as a ratio to the signal in dB: the modulator's own MER, distortion. */
  otherRatiosDb?: readonly number[];
}>;

export type MerEstimate = Readonly<{
  merDb: number;
  /** What was taken for granted, to be shown beside the number. */
  assumptions: readonly string[];
}>;

/**
 * What modulation error ratio may be hoped for. An estimate, never a measurement.
 * @returns  dB and what was taken for granted, or a refusal
 * @source   MER equals carrier to noise in the symbol rate's bandwidth for an ideal receiver in white noise: from memory,
 *           common practice; symbol rates: ITU-T J.83 Annex B; ratios add as powers: Hranac, "Broadband: Total Power, Part 2"
 */
export function merEstimate(input: MerInput): Result<MerEstimate, Unfit> {
  const { cnrDb, cnrBandwidthMhz, levelOffsetDb, symbolRateMsym } = input;
  const otherRatiosDb = input.otherRatiosDb ?? [];
  const wrong = unfit([
    ['carrier to noise', cnrDb, RATIO],
    ['noise bandwidth', cnrBandwidthMhz, BANDWIDTH],
    ['level offset', levelOffsetDb, RATIO],
    ['symbol rate', symbolRateMsym, { ...BANDWIDTH, unit: 'million symbols a second' }],
    ...otherRatiosDb.map((ratioDb, i) => [`ratio ${i + 1}`, ratioDb, RATIO] as const),
  ]);
  if (wrong !== null) return wrong;
  const inSymbolRateDb = cnrDb + levelOffsetDb - 10 * Math.log10(symbolRateMsym / cnrBandwidthMhz);
  const together = cnrOfUnlikeDb([inSymbolRateDb, ...otherRatiosDb]);
  if (!together.ok) return together;
  return done({
    merDb: together.value,
    assumptions: [
      'white noise, and a receiver with a filter as wide as the symbol rate',
      otherRatiosDb.length === 0
        ? 'nothing but noise: no distortion, echo, hum, phase noise or blur of the modulator'
        : `${otherRatiosDb.length} other ratio${otherRatiosDb.length === 1 ? '' : 's'} added as noise, everything else left out`,
      'an ideal receiver: no implementation loss',
    ],
  });
}
