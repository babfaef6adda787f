import type { Unfit } from '../checked.ts';
import { done, type Refusal, type Result } from '../result.ts';
import type { Cable } from './cables.ts';
import { equalizerForSpan, equalizerForTiltDb, type SpanEqualizer } from './equalizer.ts';
import { type CableLoss, lossPer100FtDb } from './loss.ts';
import { lossRatio, type SpanUnfit, spanLossDb, tiltOfLossDb } from './span.ts';
import { atTemperature, PER_DEGREE_F } from './temperature.ts';

export type SpanInput = Readonly<{
  cable: Cable;
  lengthM: number;
  lowMhz: number;
  highMhz: number;
  /** Top frequency of the equalizers, MHz; highMhz when left out. */
  topMhz?: number | undefined;
  /** Part of the loss a degree F; PER_DEGREE_F when left out. */
  perDegreeF?: number | undefined;
  /** Degrees C of the cable. */
  coldC: number;
  nowC: number;
  hotC: number;
  /** dB by which the signal is sent into the span with more rise than the station is to send out; 0 when left out. */
  riseToSpareDb?: number | undefined;
}>;

export type SpanDay = Readonly<{
  day: 'cold' | 'now' | 'hot';
  ambientC: number;
  lossLowDb: number;
  lossHighDb: number;
  tiltDb: number;
}>;

export type SpanFigures = Readonly<{
  lengthM: number;
  lowMhz: number;
  highMhz: number;
  perDegreeF: number;
  /** At 20 degrees C. */
  lossLowDb: number;
  lossHighDb: number;
  tiltDb: number;
  /** Loss at the low frequency as a part of that at the high one. */
  ratioLoss: number;
  /** On whose word the loss is, at the high frequency. */
  per100Ft: CableLoss;
  days: readonly SpanDay[];
  /** What the span needs today, or why no equalizer does it. */
  equalizer: SpanEqualizer | Refusal<'too-little-tilt'>;
  /** So many dB of this very cable are taken away by such an equalizer; null without one. */
  undoesCableDb: number | null;
}>;

export type SpanFiguresUnfit = SpanUnfit | 'low-above-high';

/**
 * All that a length of cable does to the signal: loss, tilt, both on a cold and a hot day, and the equalizer for it.
 * @param input  lengths in m, frequencies in MHz, temperatures in degrees C of the cable
 * @returns  losses and tilts in dB, positive; or the first refusal of a number that is none or out of range
 * @source   see `spanLossDb`, `tiltOfLossDb`, `atTemperature`, `equalizerForSpan`
 */
export function spanFigures(input: SpanInput): Result<SpanFigures, SpanFiguresUnfit> {
  const { cable, lengthM, lowMhz, highMhz } = input;
  const perDegreeF = input.perDegreeF ?? PER_DEGREE_F;
  const ratio = lossRatio(cable, lowMhz, highMhz);
  if (!ratio.ok) return ratio;
  const per100Ft = lossPer100FtDb(cable, highMhz);
  if (!per100Ft.ok) return per100Ft;
  const high = spanLossDb(cable, highMhz, lengthM);
  if (!high.ok) return high;
  const tilt = tiltOfLossDb(cable, high.value, lowMhz, highMhz);
  if (!tilt.ok) return tilt;
  const lossLowDb = high.value - tilt.value;
  const days: SpanDay[] = [];
  for (const [day, ambientC] of [
    ['cold', input.coldC],
    ['now', input.nowC],
    ['hot', input.hotC],
  ] as const) {
    const then = lossOn(lossLowDb, high.value, ambientC, perDegreeF);
    if (!then.ok) return then;
    days.push({ day, ambientC, ...then.value });
  }
  const band = { lowMhz, highMhz, topMhz: input.topMhz ?? highMhz };
  const today = days.find(({ day }) => day === 'now')?.lossHighDb ?? high.value;
  // An equalizer is chosen for the cable as long as it would have to be to lose at 20 degrees C what it loses today.
  const asLongAs = high.value === 0 ? lengthM : (lengthM * today) / high.value;
  const equalizer = equalizerForSpan({ cable, lengthM: asLongAs }, band, input.riseToSpareDb ?? 0);
  if (!equalizer.ok && equalizer.code !== 'too-little-tilt') return { ...equalizer, code: equalizer.code };
  const undoes = equalizer.ok ? equalizerForTiltDb(equalizer.value.takeAwayDb, ratio.value) : null;
  return done({
    ...{ lengthM, lowMhz, highMhz, perDegreeF, lossLowDb, days },
    lossHighDb: high.value,
    tiltDb: tilt.value,
    ratioLoss: ratio.value,
    per100Ft: per100Ft.value,
    equalizer: equalizer.ok ? equalizer.value : { ...equalizer, code: 'too-little-tilt' },
    undoesCableDb: undoes?.ok === true ? undoes.value : null,
  });
}

function lossOn(
  lossLowDb: number,
  lossHighDb: number,
  ambientC: number,
  perDegreeF: number,
): Result<Omit<SpanDay, 'day' | 'ambientC'>, Unfit> {
  const low = atTemperature(lossLowDb, ambientC, perDegreeF);
  if (!low.ok) return low;
  const high = atTemperature(lossHighDb, ambientC, perDegreeF);
  if (!high.ok) return high;
  return done({ lossLowDb: low.value, lossHighDb: high.value, tiltDb: high.value - low.value });
}
