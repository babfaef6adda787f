import { type Allowed, FREQUENCY, LOSS, RATIO, type Unfit, unfit } from '../checked.ts';
import { done, type Result, refuse } from '../result.ts';
import type { Cable } from './cables.ts';
import { type SpanUnfit, spanTiltDb } from './span.ts';

const LOSS_RATIO: Allowed = {
  unit: '(loss at the low frequency over that at the high one)',
  from: 0,
  to: 0.999,
};

/**
 * The equalizer, in dB of cable, that takes away a tilt.
 * @param tiltDb     dB by which the high end is down, 0 or more
 * @param ratioLoss  loss at the low frequency over that at the high one, 0 to below 1
 * @returns  dB of cable at the high frequency, or a refusal
 * @source   cabl.com "CATV Formulas": EQ = tilt / (1 - ratio)
 */
export function equalizerForTiltDb(tiltDb: number, ratioLoss: number): Result<number, Unfit> {
  const wrong = unfit([
    ['tilt', tiltDb, LOSS],
    ['ratio', ratioLoss, LOSS_RATIO],
  ]);
  return wrong ?? done(tiltDb / (1 - ratioLoss));
}

export type SpanEqualizer = Readonly<{
  /** What the span tilts by, dB more loss at the high frequency. */
  spanTiltDb: number;
  /** What the equalizer has to take away, dB: the span's tilt less what the signal may or must keep. */
  takeAwayDb: number;
  /** Value at its top frequency, dB, not rounded to what a kit holds. */
  valueDb: number;
  topMhz: number;
}>;

/**
 * The equalizer of the station file's kind, value * (1 - sqrt(f/top)), that a span needs. Its slope is that of a
 * conductor alone and a little flatter than that of real foam cable, so its value is a little more than the span's loss.
 * @param span           cable and length in m
 * @param band           MHz: the two frequencies at which the tilt counts, and the equalizer's top frequency
 * @param riseAtInputDb  dB by which the high end is sent out above the low one, 0 when left out: a tilted output needs
 *                       that much less behind the span
 * @returns  the value, or a refusal; `too-little-tilt` when the span takes away less than the rise at its input
 * @source   contract, section 2 (loss of an equalizer); cabl.com "CATV Formulas": EQ = tilt / (1 - ratio)
 */
export function equalizerForSpan(
  span: Readonly<{ cable: Cable; lengthM: number }>,
  band: Readonly<{ lowMhz: number; highMhz: number; topMhz: number }>,
  riseAtInputDb = 0,
): Result<SpanEqualizer, SpanUnfit | 'low-above-high' | 'too-little-tilt'> {
  const wrong = unfit([
    ['rise at the input', riseAtInputDb, RATIO],
    ['top frequency', band.topMhz, FREQUENCY],
  ]);
  if (wrong !== null) return wrong;
  const tilt = spanTiltDb(span.cable, span.lengthM, band.lowMhz, band.highMhz);
  if (!tilt.ok) return tilt;
  if (band.topMhz < band.highMhz)
    return refuse(
      'out-of-range',
      `top frequency ${band.topMhz} MHz`,
      `must not lie below ${band.highMhz} MHz`,
    );
  const takeAwayDb = tilt.value - riseAtInputDb;
  if (takeAwayDb < 0)
    return refuse(
      'too-little-tilt',
      `span tilt ${tilt.value} dB`,
      `the signal rises by ${riseAtInputDb} dB at the input; this needs a cable simulator, not an equalizer`,
    );
  const part = (Math.sqrt(band.highMhz) - Math.sqrt(band.lowMhz)) / Math.sqrt(band.topMhz);
  return done({ spanTiltDb: tilt.value, takeAwayDb, valueDb: takeAwayDb / part, topMhz: band.topMhz });
}
