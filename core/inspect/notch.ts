import { explainedBy, type Fitted, type Patch } from './fitted.ts';
import { logChanceOf } from './surprise.ts';
import type { Trace } from './trace.ts';

/** A bell on the line: its place, its width at half of its height, and its height in dB, negative for a notch. */
export type Bell = Readonly<{ centerMhz: number; widthMhz: number; heightDb: number; logChance: number }>;

/** Shallower than this is not worth naming. Common practice, no published source. */
const LEAST_HEIGHT_DB = 0.5;
/** Widths from one spacing of rows up, each this much wider than the one before. */
const WIDER = 1.5;
/** A bell wider than this part of its island is the shape of the line, not a notch. */
const WIDEST_PART = 0.25;
/** Beyond this many widths a bell has fallen to less than a thousandth. */
const REACH_WIDTHS = 1.6;

const indexFrom = (mhz: readonly number[], fromMhz: number): number => {
  let low = 0;
  let high = mhz.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((mhz[middle] ?? 0) < fromMhz) low = middle + 1;
    else high = middle;
  }
  return low;
};

/**
 * A bell's values at the rows it reaches.
 * @param mhz        rising, MHz
 * @param centerMhz  MHz
 * @param widthMhz   at half of its height, MHz, above 0
 * @returns  1 at its top, no unit
 * @source   common practice, no published source: the shape of a normal distribution
 */
export function bellPatch(mhz: readonly number[], centerMhz: number, widthMhz: number): Patch {
  const at = indexFrom(mhz, centerMhz - REACH_WIDTHS * widthMhz);
  const values: number[] = [];
  for (let i = at; i < mhz.length; i++) {
    const widths = ((mhz[i] ?? 0) - centerMhz) / widthMhz;
    if (widths > REACH_WIDTHS) break;
    values.push(2 ** -((2 * widths) ** 2));
  }
  return { at, values };
}

/** The ends of the island that a frequency lies in, less one row on each side: there a dip has two shores. */
type Shores = Readonly<{ lowMhz: number; highMhz: number }>;

function shoresOf(trace: Trace, fitted: Fitted): Shores[] {
  const kept = new Set(fitted.mhz);
  const islands = new Map<number, number[]>();
  trace.mhz.forEach((f, i) => {
    const island = trace.island[i] ?? 0;
    if (kept.has(f)) islands.set(island, [...(islands.get(island) ?? []), f]);
  });
  return [...islands.values()]
    .filter((rows) => rows.length >= 5)
    .map((rows) => ({ lowMhz: rows[0] ?? 0, highMhz: rows.at(-1) ?? 0 }));
}

/** Half of a bell's width and half a spacing must fit between its centre and the shore. */
const hasShores = (shores: Shores, centerMhz: number, widthMhz: number, stepMhz: number): boolean => {
  const room = widthMhz / 2 + stepMhz / 2;
  return centerMhz - room >= shores.lowMhz && centerMhz + room <= shores.highMhz;
};

function* places(shores: readonly Shores[], stepMhz: number) {
  for (const shore of shores) {
    const widest = Math.max(stepMhz, (shore.highMhz - shore.lowMhz) * WIDEST_PART);
    for (let widthMhz = stepMhz; widthMhz <= widest; widthMhz *= WIDER)
      for (let centerMhz = shore.lowMhz; centerMhz <= shore.highMhz; centerMhz += widthMhz / 3)
        if (hasShores(shore, centerMhz, widthMhz, stepMhz)) yield { shore, centerMhz, widthMhz };
  }
}

type Place = Readonly<{ shore: Shores; centerMhz: number; widthMhz: number }>;

/** Walks to the nearest top over centre and width, in steps that halve. */
function refinedPlace(fitted: Fitted, start: Place, sign: -1 | 1, stepMhz: number): Place {
  const gainAt = (place: Place) => {
    const { gainDb2, amplitudeDb } = explainedBy(
      fitted,
      bellPatch(fitted.mhz, place.centerMhz, place.widthMhz),
    );
    return Math.sign(amplitudeDb) === sign ? gainDb2 : 0;
  };
  const allowed = (place: Place) =>
    place.widthMhz >= stepMhz &&
    place.widthMhz <= (place.shore.highMhz - place.shore.lowMhz) / 2 &&
    hasShores(place.shore, place.centerMhz, place.widthMhz, stepMhz);
  let best = start;
  let gainDb2 = gainAt(start);
  for (let move = 0.25; move > 1e-4; ) {
    const tries = [
      { ...best, centerMhz: best.centerMhz + move * best.widthMhz },
      { ...best, centerMhz: best.centerMhz - move * best.widthMhz },
      { ...best, widthMhz: best.widthMhz * (1 + move) },
      { ...best, widthMhz: best.widthMhz / (1 + move) },
    ].filter(allowed);
    const next = tries
      .map((place) => ({ place, gainDb2: gainAt(place) }))
      .reduce((a, b) => (b.gainDb2 > a.gainDb2 ? b : a), { place: best, gainDb2 });
    if (next.gainDb2 > gainDb2 * (1 + 1e-12)) {
      best = next.place;
      gainDb2 = next.gainDb2;
    } else move /= 2;
  }
  return best;
}

/**
 * A bell's place and width made exact, beside all else that is in the model.
 * @param bell  about where it is, MHz
 * @returns  the best near it, its height in dB; its surprise is that of this one try
 * @source   least squares over height, place and width
 */
export function refinedBell(trace: Trace, fitted: Fitted, bell: Bell): Bell {
  const shore = shoresOf(trace, fitted).find((one) =>
    hasShores(one, bell.centerMhz, bell.widthMhz, trace.stepMhz),
  );
  if (shore === undefined) return bell;
  const sign = bell.heightDb < 0 ? -1 : 1;
  const { centerMhz, widthMhz } = refinedPlace(fitted, { ...bell, shore }, sign, trace.stepMhz);
  const { gainDb2, amplitudeDb } = explainedBy(fitted, bellPatch(fitted.mhz, centerMhz, widthMhz));
  return { centerMhz, widthMhz, heightDb: amplitudeDb, logChance: logChanceOf(fitted, gainDb2, 1, 1) };
}

/**
 * The strongest narrow dip (sign -1) or bump (sign 1) in what a model leaves. A dip has a shore on both sides; one that
 * runs into the end of the sweep is a roll-off. A dip that only one row sees is as wide as the rows' spacing.
 * @returns  centre and width at half height in MHz, height in dB, and how surprising it is; null where none is worth
 *           naming
 * @source   common practice, no published source; least squares over height, place and width
 */
export function strongestBell(trace: Trace, fitted: Fitted, sign: -1 | 1): Bell | null {
  if (fitted.freedom < 4 || !(trace.stepMhz > 0)) return null;
  let best: Place | null = null;
  let bestGainDb2 = 0;
  let tried = 0;
  for (const place of places(shoresOf(trace, fitted), trace.stepMhz)) {
    tried++;
    const { gainDb2, amplitudeDb } = explainedBy(
      fitted,
      bellPatch(fitted.mhz, place.centerMhz, place.widthMhz),
    );
    if (Math.sign(amplitudeDb) !== sign || gainDb2 <= bestGainDb2) continue;
    best = place;
    bestGainDb2 = gainDb2;
  }
  if (best === null) return null;
  const bell = refinedBell(trace, fitted, { ...best, heightDb: sign, logChance: 0 });
  if (Math.abs(bell.heightDb) < LEAST_HEIGHT_DB) return null;
  return { ...bell, logChance: Math.min(0, bell.logChance + Math.log(tried)) };
}
