import { explainedBy, type Fitted } from './fitted.ts';
import { logChanceOf } from './surprise.ts';
import type { Trace } from './trace.ts';

/** A level that jumps between two rows and stays: dB, positive where it rises with frequency. */
export type Jump = Readonly<{ atMhz: number; stepDb: number; logChance: number }>;

/** Smaller than this is not worth naming. Common practice, no published source. */
const LEAST_STEP_DB = 0.5;
/** Rows on each side without which a jump can't be told from one odd row. */
const ROWS_ON_EACH_SIDE = 3;

/**
 * The strongest jump in what a model leaves. Across a wide gap none is looked for: there nobody can say where a level
 * changed, nor whether it jumped.
 * @returns  midway between the two rows, MHz, and by how much, dB; null where none is worth naming
 * @source   common practice, no published source; least squares over place and height
 */
export function strongestJump(trace: Trace, fitted: Fitted): Jump | null {
  const { mhz } = fitted;
  const n = mhz.length;
  if (fitted.freedom < 4) return null;
  const islandOf = new Map(trace.mhz.map((f, i) => [f, trace.island[i] ?? 0]));
  let best: Jump | null = null;
  let bestGainDb2 = 0;
  let tried = 0;
  for (let at = ROWS_ON_EACH_SIDE; at <= n - ROWS_ON_EACH_SIDE; at++) {
    const before = mhz[at - 1] ?? 0;
    const after = mhz[at] ?? 0;
    if (islandOf.get(before) !== islandOf.get(after)) continue;
    tried++;
    const { gainDb2, amplitudeDb } = explainedBy(fitted, {
      at,
      values: new Array<number>(n - at).fill(1),
    });
    if (gainDb2 <= bestGainDb2) continue;
    bestGainDb2 = gainDb2;
    best = { atMhz: (before + after) / 2, stepDb: amplitudeDb, logChance: 0 };
  }
  if (best === null || Math.abs(best.stepDb) < LEAST_STEP_DB) return null;
  return { ...best, logChance: logChanceOf(fitted, bestGainDb2, 1, tried) };
}
