import { exactBest } from './exact-best.ts';
import { explainedBySine, type Fitted } from './fitted.ts';
import { sinesAbout } from './quick-sums.ts';
import { logChanceOf } from './surprise.ts';

/** A swing about the line, as long as it is uniform over the sweep. */
export type Ripple = Readonly<{ perMhz: number; amplitudeDb: number; logChance: number }>;

/** What the sweep can show at all: the shortest and the longest period, MHz. */
export type RippleLimits = Readonly<{ shortestMhz: number; longestMhz: number }>;

/** Points of the periodogram for each that is independent. */
const OVERSAMPLED = 4;
/** Less than this, peak to peak, is not worth a walk. Common practice, no published source. */
const LEAST_PEAK_TO_PEAK_DB = 0.2;

/**
 * What ripple a sweep can show. A period must be at least two spacings of its rows (Nyquist): on the 6 MHz raster of
 * channels 12 MHz, a distance of 10.9 m at 0.87; a longer cable ripples faster, and on that raster shows up falsely as a
 * longer period or not at all. And it must come round twice in the widest part without a gap.
 * @param stepMhz    usual spacing of rows, MHz
 * @param widestMhz  width of the widest part without a gap, MHz
 * @returns  MHz; the longest may lie below the shortest, then no ripple can be told
 * @source   sampling theorem; two periods: common practice, no published source
 */
export const rippleLimits = (stepMhz: number, widestMhz: number): RippleLimits => ({
  shortestMhz: 2 * stepMhz,
  longestMhz: widestMhz / 2,
});

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** The place of the largest value of a function with one hill between two places, to a 10^-6th of their distance. */
function hilltop(from: number, to: number, height: (x: number) => number): number {
  let [low, high] = [from, to];
  let left = high - GOLDEN * (high - low);
  let right = low + GOLDEN * (high - low);
  let [atLeft, atRight] = [height(left), height(right)];
  while (high - low > (to - from) * 1e-6) {
    if (atLeft > atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - GOLDEN * (high - low);
      atLeft = height(left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + GOLDEN * (high - low);
      atRight = height(right);
    }
  }
  return (low + high) / 2;
}

const spanOf = ({ mhz }: Fitted): number => (mhz.at(-1) ?? 0) - (mhz[0] ?? 0);

/**
 * How many sines are tried.
 * @returns  a count; twice the independent ones, to be on the safe side
 * @source   common practice for periodograms, no published source
 */
export const rippleTrials = (fitted: Fitted, { shortestMhz, longestMhz }: RippleLimits): number =>
  Math.max(1, 2 * spanOf(fitted) * (1 / shortestMhz - 1 / longestMhz));

/**
 * A ripple's period made exact, beside all else that is in the model.
 * @param perMhz   about the periods a MHz
 * @param limits   MHz
 * @returns  the best near it and how surprising it is
 * @source   least squares over the period as well
 */
export function refinedRipple(fitted: Fitted, perMhz: number, limits: RippleLimits): Ripple {
  const near = 1 / (OVERSAMPLED * spanOf(fitted));
  const best = hilltop(
    Math.max(perMhz - near, 1 / limits.longestMhz),
    Math.min(perMhz + near, 1 / limits.shortestMhz),
    (x) => explainedBySine(fitted, x).gainDb2,
  );
  const { gainDb2, amplitudeDb } = explainedBySine(fitted, best);
  return {
    perMhz: best,
    amplitudeDb,
    logChance: logChanceOf(fitted, gainDb2, 2, rippleTrials(fitted, limits)),
  };
}

/**
 * The strongest ripple in what a model leaves: a periodogram that fits each sine together with the model, so that gaps
 * between the rows and a tilt do no harm, and then the period made exact.
 * @param limits  MHz, from `rippleLimits`
 * @returns  periods a MHz, amplitude in dB, and how surprising it is; null where there is none worth naming
 * @source   N. R. Lomb (1976), as in `explainedBySine`
 */
export function strongestRipple(fitted: Fitted, limits: RippleLimits): Ripple | null {
  if (!(limits.longestMhz > limits.shortestMhz) || fitted.freedom < 5) return null;
  const stepPerMhz = 1 / (OVERSAMPLED * spanOf(fitted));
  // The last place is the end itself: the fastest ripple that the rows can show.
  const tried: number[] = [];
  for (let perMhz = 1 / limits.longestMhz; perMhz <= 1 / limits.shortestMhz; perMhz += stepPerMhz)
    tried.push(perMhz);
  const about = sinesAbout(fitted, { fromPerMhz: 1 / limits.longestMhz, stepPerMhz, count: tried.length });
  const best = exactBest(fitted, about, (at) => explainedBySine(fitted, tried[at] as number));
  if (best === null) return null;
  const ripple = refinedRipple(fitted, tried[best.at] as number, limits);
  return 2 * ripple.amplitudeDb < LEAST_PEAK_TO_PEAK_DB ? null : ripple;
}
