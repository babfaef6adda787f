import { exactBest } from './exact-best.ts';
import { explainedBy, type Fitted } from './fitted.ts';
import { gainOf } from './quick-sums.ts';
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
  const about = jumpsAbout(fitted);
  let tried = 0;
  for (let at = 0; at <= n; at++) {
    const isTried =
      at >= ROWS_ON_EACH_SIDE &&
      at <= n - ROWS_ON_EACH_SIDE &&
      islandOf.get(mhz[at - 1] ?? 0) === islandOf.get(mhz[at] ?? 0);
    if (isTried) tried++;
    else about[at] = 0;
  }
  const found = exactBest(fitted, about, (at) =>
    explainedBy(fitted, { at, values: new Array<number>(n - at).fill(1) }),
  );
  if (found === null) return null;
  const { at, explained } = found;
  const stepDb = explained.amplitudeDb;
  if (Math.abs(stepDb) < LEAST_STEP_DB) return null;
  return {
    atMhz: ((mhz[at - 1] ?? 0) + (mhz[at] ?? 0)) / 2,
    stepDb,
    logChance: logChanceOf(fitted, explained.gainDb2, 1, tried),
  };
}

/** What a jump before each row would explain, about: all from sums over the rows above it. */
function jumpsAbout({ mhz, residualDb, columns }: Fitted): Float64Array {
  const n = mhz.length;
  const about = new Float64Array(n + 1);
  const shares = new Float64Array(columns.length);
  let alongDb = 0;
  for (let at = n - 1; at >= 0; at--) {
    alongDb += residualDb[at] ?? 0;
    let left = n - at;
    columns.forEach((column, i) => {
      const share = (shares[i] ?? 0) + (column[at] ?? 0);
      shares[i] = share;
      left -= share * share;
    });
    about[at] = gainOf(n - at, left, alongDb);
  }
  return about;
}
