import type { LevelRow } from '../line/level-row.ts';
import { medianOf } from '../line/robust-line.ts';

/** A sweep made ready for looking at: rising frequencies, each once. All arrays are as long as `mhz`. */
export type Trace = Readonly<{
  mhz: readonly number[];
  dbmv: readonly number[];
  /** True where a row is of the smaller of two families of signals, which may lie at a level of its own. */
  otherFamily: readonly boolean[];
  /** Rows with the same number have no wide gap between them. */
  island: readonly number[];
  /** The usual distance of neighbours, MHz. */
  stepMhz: number;
  /** Width of the widest island, MHz. */
  widestMhz: number;
}>;

/** More than this many missing neighbours in a row are a gap in the plan, not missing carriers. */
export const WIDEST_GAP_STEPS = 4.5;

/** A family of fewer rows than this can't tell its own level from a fault. */
const FAMILY_ROWS = 3;

/** 1 MHz in 10^4: nearer than this is the same frequency, and spacings as near are the same spacing. */
const SAME_MHZ = 1e-4;

type Point = { mhz: number; dbmv: number; peak: boolean };

function pointsOf(rows: readonly LevelRow[]): Point[] {
  const points: Point[] = [];
  const sorted = rows
    .flatMap(({ frequencyMhz, levelDbmv, unlocked, kind }) =>
      frequencyMhz === null || frequencyMhz <= 0 || levelDbmv === null || unlocked === true
        ? []
        : [{ mhz: frequencyMhz, dbmv: levelDbmv, peak: kind === 'analog' || kind === 'cw' }],
    )
    .sort((a, b) => a.mhz - b.mhz);
  for (let i = 0; i < sorted.length; ) {
    const first = sorted[i];
    if (first === undefined) break;
    let to = i;
    while (to < sorted.length && (sorted[to]?.mhz ?? 0) - first.mhz < SAME_MHZ) to++;
    points.push({ ...first, dbmv: medianOf(sorted.slice(i, to).map((point) => point.dbmv)) });
    i = to;
  }
  return points;
}

/**
 * The usual distance of neighbours.
 * @param mhz  rising frequencies, MHz
 * @returns  the commonest spacing in MHz, the smallest of those that are equally common; 0 for fewer than two rows
 * @source   common practice, no published source
 */
function usualStepMhz(mhz: readonly number[]): number {
  const spacings = mhz
    .slice(1)
    .map((f, i) => f - (mhz[i] ?? f))
    .sort((a, b) => a - b);
  let best = { mhz: spacings[0] ?? 0, count: 0 };
  for (let i = 0; i < spacings.length; ) {
    const first = spacings[i] ?? 0;
    let j = i;
    while (j < spacings.length && (spacings[j] ?? 0) - first <= Math.max(SAME_MHZ, first * 1e-3)) j++;
    if (j - i > best.count) best = { mhz: medianOf(spacings.slice(i, j)), count: j - i };
    i = j;
  }
  // Rows at no raster at all: their middle spacing says as much as can be said.
  return best.count * 4 >= spacings.length || spacings.length === 0 ? best.mhz : medianOf(spacings);
}

/**
 * Makes a sweep ready for the finders.
 * @param rows  MHz and dBmV, any order; rows without a frequency or a level, and those not locked, are left out
 * @returns  rising frequencies; several rows at one frequency become their median
 * @source   common practice, no published source
 */
export function traceOf(rows: readonly LevelRow[]): Trace {
  const points = pointsOf(rows);
  const mhz = points.map((point) => point.mhz);
  const peaks = points.filter((point) => point.peak).length;
  const twoFamilies = Math.min(peaks, points.length - peaks) >= FAMILY_ROWS;
  const smaller = peaks * 2 <= points.length;
  const stepMhz = usualStepMhz(mhz);
  const island: number[] = [];
  let widestMhz = 0;
  let startMhz = mhz[0] ?? 0;
  mhz.forEach((f, i) => {
    const before = mhz[i - 1] ?? f;
    const apart = f - before > WIDEST_GAP_STEPS * stepMhz;
    if (apart) startMhz = f;
    island.push((island[i - 1] ?? 0) + (apart ? 1 : 0));
    widestMhz = Math.max(widestMhz, f - startMhz);
  });
  return {
    mhz,
    dbmv: points.map((point) => point.dbmv),
    otherFamily: points.map((point) => twoFamilies && point.peak === smaller),
    island,
    stepMhz,
    widestMhz,
  };
}
