import { exactBest } from './exact-best.ts';
import { explainedBy, type Fitted, type Patch } from './fitted.ts';
import { gainOf } from './quick-sums.ts';
import { logChanceOf } from './surprise.ts';

/** The line bending away at an end of the sweep: how far at its last row, dB, negative where it falls. */
export type Bend = Readonly<{
  edge: 'low' | 'high';
  fromMhz: number;
  power: number;
  heightDb: number;
  logChance: number;
}>;

/** Shallower than this is not worth naming. Common practice, no published source. */
const LEAST_HEIGHT_DB = 0.5;
/** A bend that begins further in than this part of the rows is the shape of the line, not its edge. */
const WIDEST_PART = 0.4;
/** How a band edge falls: straight, or ever steeper. Common practice, no published source. */
const POWERS = [1, 2, 3] as const;

/**
 * A bend's values: 0 where it begins, 1 at the sweep's last row.
 * @param mhz      rising, MHz
 * @param fromMhz  where it begins, MHz
 * @param power    1 straight, 2 and 3 ever steeper
 * @returns  no unit
 * @source   common practice, no published source
 */
export function bendPatch(mhz: readonly number[], edge: Bend['edge'], fromMhz: number, power: number): Patch {
  const endMhz = (edge === 'high' ? mhz.at(-1) : mhz[0]) ?? fromMhz;
  const way = (f: number) => Math.max(0, (f - fromMhz) / (endMhz - fromMhz)) ** power;
  if (edge === 'low')
    return { at: 0, values: mhz.slice(0, mhz.findLastIndex((f) => f < fromMhz) + 1).map(way) };
  const at = mhz.findIndex((f) => f > fromMhz);
  return at < 0 ? { at: 0, values: [] } : { at, values: mhz.slice(at).map(way) };
}

/**
 * The strongest bend at one end of the sweep, in what a model leaves.
 * @returns  where it begins in MHz, its height at the last row in dB, and how surprising it is; null where none is worth
 *           naming
 * @source   common practice, no published source; least squares over height, beginning and steepness
 */
export function strongestBend(fitted: Fitted, edge: Bend['edge']): Bend | null {
  const { mhz } = fitted;
  const inner = Math.floor(mhz.length * WIDEST_PART);
  if (fitted.freedom < 4 || inner < 1) return null;
  const beginnings = beginningsOf(mhz, edge, inner);
  const about = bendsAbout(fitted, edge, beginnings);
  const patchOf = ({ fromMhz, power }: Beginning) => bendPatch(mhz, edge, fromMhz, power);
  const best = exactBest(fitted, about, (at) => explainedBy(fitted, patchOf(beginnings[at] as Beginning)));
  if (best === null) return null;
  const { fromMhz, power } = beginnings[best.at] as Beginning;
  const { amplitudeDb, gainDb2 } = best.explained;
  if (Math.abs(amplitudeDb) < LEAST_HEIGHT_DB) return null;
  const logChance = logChanceOf(fitted, gainDb2, 1, beginnings.length);
  return { edge, fromMhz, power, heightDb: amplitudeDb, logChance };
}

/** A bend that is tried: over so many rows from the edge on. */
type Beginning = Readonly<{ fromMhz: number; power: (typeof POWERS)[number]; rows: number }>;

/** On each row and, because the knee need not stand on a channel, between two; the nearest to the edge first. */
function beginningsOf(mhz: readonly number[], edge: Bend['edge'], inner: number): readonly Beginning[] {
  const fromEdge = (k: number) => (edge === 'high' ? mhz[mhz.length - 1 - k] : mhz[k]) ?? 0;
  const all: Beginning[] = [{ fromMhz: fromEdge(1), power: 1, rows: 1 }];
  for (let k = 2; k <= inner; k++)
    for (const part of [0, 0.5])
      for (const power of POWERS)
        all.push({ fromMhz: fromEdge(k) + part * (fromEdge(k - 1) - fromEdge(k)), power, rows: k });
  return all;
}

/** Numbers of ways to choose: the factors of (1 - x)^power, and of its square. */
const FACTORS = { 1: [1, -1], 2: [1, -2, 1], 3: [1, -3, 3, -1] } as const;
const SQUARE_FACTORS = { 1: [1, -2, 1], 2: [1, -4, 6, -4, 1], 3: [1, -6, 15, -20, 15, -6, 1] } as const;
const MOST_POWER = 3;

/** Sum of factor times sum of x^k, for the x of `sums` in parts of `reach`. */
function weighed(factors: readonly number[], sums: Float64Array, reach: number): number {
  let total = 0;
  for (let k = factors.length - 1; k >= 0; k--) total = total / reach + (factors[k] ?? 0) * (sums[k] ?? 0);
  return total;
}

/**
 * What each bend would explain, about: with x the distance from the edge, a bend that begins at `reach` is (1 - x/reach)^power,
 * so all of them come from the sums of powers of x over the rows from the edge on.
 */
function bendsAbout(
  { mhz, residualDb, columns }: Fitted,
  edge: Bend['edge'],
  beginnings: readonly Beginning[],
): Float64Array {
  const n = mhz.length;
  const rowAt = (j: number) => (edge === 'high' ? n - 1 - j : j);
  const endMhz = mhz[rowAt(0)] ?? 0;
  const deepestMhz = Math.abs((mhz[rowAt(beginnings.at(-1)?.rows ?? 0)] ?? 0) - endMhz);
  const own = new Float64Array(2 * MOST_POWER + 1);
  const lists = [residualDb, ...columns];
  const sums = lists.map(() => new Float64Array(MOST_POWER + 1));
  let rows = 0;
  return Float64Array.from(beginnings, (bend) => {
    for (; rows < bend.rows; rows++) {
      const row = rowAt(rows);
      const x = Math.abs((mhz[row] ?? 0) - endMhz) / deepestMhz;
      for (let k = 0, part = 1; k < own.length; k++, part *= x) own[k] = (own[k] ?? 0) + part;
      lists.forEach((list, i) => {
        const to = sums[i] ?? own;
        for (let k = 0, part = list[row] ?? 0; k <= MOST_POWER; k++, part *= x) to[k] = (to[k] ?? 0) + part;
      });
    }
    const reach = Math.abs(bend.fromMhz - endMhz) / deepestMhz;
    const ownSquares = weighed(SQUARE_FACTORS[bend.power], own, reach);
    const [alongDb = 0, ...shares] = sums.map((one) => weighed(FACTORS[bend.power], one, reach));
    return gainOf(
      ownSquares,
      shares.reduce((left, share) => left - share * share, ownSquares),
      alongDb,
    );
  });
}
