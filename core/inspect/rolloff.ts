import { explainedBy, type Fitted, type Patch } from './fitted.ts';
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
  const fromEdge = (k: number) => (edge === 'high' ? mhz[mhz.length - 1 - k] : mhz[k]) ?? 0;
  let best: Bend | null = null;
  let bestGainDb2 = 0;
  let tried = 0;
  for (let k = 1; k <= inner; k++)
    for (const part of [0, 0.5])
      for (const power of k === 1 && part === 0 ? [1] : POWERS) {
        // Between rows too: the knee need not stand on a channel.
        const fromMhz = fromEdge(k) + part * (fromEdge(k - 1) - fromEdge(k));
        if (k === 1 && part > 0) continue;
        tried++;
        const { gainDb2, amplitudeDb } = explainedBy(fitted, bendPatch(mhz, edge, fromMhz, power));
        if (gainDb2 <= bestGainDb2) continue;
        bestGainDb2 = gainDb2;
        best = { edge, fromMhz, power, heightDb: amplitudeDb, logChance: 0 };
      }
  if (best === null || Math.abs(best.heightDb) < LEAST_HEIGHT_DB) return null;
  return { ...best, logChance: logChanceOf(fitted, bestGainDb2, 1, tried) };
}
