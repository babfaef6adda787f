import { exactBest } from './exact-best.ts';
import { explainedBy, type Fitted, type Patch } from './fitted.ts';
import { gainOf } from './quick-sums.ts';
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
    if (!kept.has(f)) return;
    const island = trace.island[i] ?? 0;
    const rows = islands.get(island);
    if (rows === undefined) islands.set(island, [f]);
    else rows.push(f);
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

function placesOf(shores: readonly Shores[], stepMhz: number): readonly Place[] {
  const places: Place[] = [];
  for (const shore of shores) {
    const widest = Math.max(stepMhz, (shore.highMhz - shore.lowMhz) * WIDEST_PART);
    for (let widthMhz = stepMhz; widthMhz <= widest; widthMhz *= WIDER)
      for (let centerMhz = shore.lowMhz; centerMhz <= shore.highMhz; centerMhz += widthMhz / 3)
        if (hasShores(shore, centerMhz, widthMhz, stepMhz)) places.push({ shore, centerMhz, widthMhz });
  }
  return places;
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

/** What each bell would explain, about, and which way it goes. */
type BellsAbout = Readonly<{ gainDb2: Float64Array; alongDb: Float64Array }>;

function bellsAbout({ mhz, residualDb, columns }: Fitted, places: readonly Place[]): BellsAbout {
  const gainDb2 = new Float64Array(places.length);
  const alongDb = new Float64Array(places.length);
  const values = new Float64Array(mhz.length);
  let first = 0;
  places.forEach(({ centerMhz, widthMhz }, k) => {
    const fromMhz = centerMhz - REACH_WIDTHS * widthMhz;
    // Of one width the centres rise.
    if ((places[k - 1]?.centerMhz ?? centerMhz) > centerMhz || places[k - 1]?.widthMhz !== widthMhz)
      first = 0;
    while (first < mhz.length && (mhz[first] as number) < fromMhz) first++;
    const count = heightsInto(values, mhz, first, centerMhz, widthMhz);
    if (count < 0) {
      gainDb2[k] = Number.NaN;
      return;
    }
    let own = 0;
    let along = 0;
    for (let i = 0; i < count; i++) {
      const value = values[i] as number;
      own += value * value;
      along += value * (residualDb[first + i] as number);
    }
    let left = own;
    for (const column of columns) {
      let share = 0;
      for (let i = 0; i < count; i++) share += (values[i] as number) * (column[first + i] as number);
      left -= share * share;
    }
    gainDb2[k] = gainOf(own, left, along);
    alongDb[k] = along;
  });
  return { gainDb2, alongDb };
}

/** Heights of a bell over its reach, by so many steps; between two a straight line, which is off by less than 1e-8. */
const STEPS = 16_384;
const heights = Float64Array.from(
  { length: STEPS + 2 },
  (_, i) => 2 ** -(((2 * REACH_WIDTHS * i) / STEPS) ** 2),
);

/** The values of `bellPatch`, about; returns how many, or -1 where rounding might say otherwise of a row at the end of its reach. */
function heightsInto(
  values: Float64Array,
  mhz: readonly number[],
  first: number,
  centerMhz: number,
  widthMhz: number,
): number {
  const perMhz = STEPS / REACH_WIDTHS / widthMhz;
  let count = 0;
  for (let i = first; i < mhz.length; i++) {
    const at = Math.abs((mhz[i] as number) - centerMhz) * perMhz;
    if (Math.abs(at - STEPS) < 1e-3) return -1;
    if (at > STEPS) break;
    const below = Math.floor(at);
    const low = heights[below] as number;
    values[count++] = low + (at - below) * ((heights[below + 1] as number) - low);
  }
  return count;
}

/**
 * The strongest narrow dip and bump in what a model leaves. A dip has a shore on both sides; one that runs into the end of
 * the sweep is a roll-off. A dip that only one row sees is as wide as the rows' spacing.
 * @returns  centre and width at half height in MHz, height in dB, and how surprising it is; null where none is worth
 *           naming
 * @source   common practice, no published source; least squares over height, place and width
 */
export function strongestBells(
  trace: Trace,
  fitted: Fitted,
): Readonly<{ dip: Bell | null; bump: Bell | null }> {
  if (fitted.freedom < 4 || !(trace.stepMhz > 0)) return { dip: null, bump: null };
  const places = placesOf(shoresOf(trace, fitted), trace.stepMhz);
  const { gainDb2, alongDb } = bellsAbout(fitted, places);
  const strongest = (sign: -1 | 1): Bell | null => {
    const found = exactBest(
      fitted,
      gainDb2.map((gain, k) => ((alongDb[k] as number) * sign < 0 ? 0 : gain)),
      (k) => {
        const { centerMhz, widthMhz } = places[k] as Place;
        const explained = explainedBy(fitted, bellPatch(fitted.mhz, centerMhz, widthMhz));
        return Math.sign(explained.amplitudeDb) === sign ? explained : { gainDb2: 0, amplitudeDb: 0 };
      },
    );
    if (found === null) return null;
    const place = places[found.at] as Place;
    const bell = refinedBell(trace, fitted, { ...place, heightDb: sign, logChance: 0 });
    if (Math.abs(bell.heightDb) < LEAST_HEIGHT_DB) return null;
    return { ...bell, logChance: Math.min(0, bell.logChance + Math.log(places.length)) };
  };
  return { dip: strongest(-1), bump: strongest(1) };
}
