import type { Line } from './fit-line.ts';

/** With more rows than this the slopes are taken from an even choice of them: all pairs of 2000 rows would take a second. */
const MOST_ROWS = 80;

/**
 * The middle of some numbers; of an even count, the mean of the two in the middle.
 * @param values  any order, at least one; not changed
 * @returns  the median, in the unit of the values
 * @throws   RangeError when there are none
 * @source   definition
 */
export const medianOf = (values: readonly number[]): number => middleOf(Float64Array.from(values));

/** The same, but sorts what it is given: the slopes below are many. */
function middleOf(values: Float64Array): number {
  values.sort();
  const middle = values.length >> 1;
  const upper = values[middle];
  if (upper === undefined) throw new RangeError('no median of nothing');
  return values.length % 2 === 1 ? upper : ((values[middle - 1] ?? upper) + upper) / 2;
}

/**
 * A line that up to half of the rows cannot pull away: repeated medians of the slopes between rows.
 * @param position   no unit, in rising order, at least two different ones
 * @param levelDbmv  dBmV, as many as positions
 * @returns  level at position 0 (dBmV) and tilt (dB)
 * @throws   RangeError when no two positions differ
 * @source   A. F. Siegel, "Robust regression using repeated medians", Biometrika 69 (1982), 242-244
 */
export function robustLine(position: readonly number[], levelDbmv: readonly number[]): Line {
  const step = Math.ceil(position.length / MOST_ROWS);
  const chosen = position.map((_, i) => i).filter((i) => i % step === 0 || i === position.length - 1);
  const fromHere = new Float64Array(chosen.length);
  const slopes: number[] = [];
  for (const i of chosen) {
    const hereX = position[i] ?? 0;
    const hereDbmv = levelDbmv[i] ?? 0;
    let count = 0;
    for (const j of chosen) {
      const run = (position[j] ?? 0) - hereX;
      if (run !== 0) fromHere[count++] = ((levelDbmv[j] ?? 0) - hereDbmv) / run;
    }
    if (count > 0) slopes.push(middleOf(fromHere.subarray(0, count)));
  }
  const tiltDb = medianOf(slopes);
  return { lowDbmv: medianOf(position.map((x, i) => (levelDbmv[i] ?? 0) - tiltDb * x)), tiltDb };
}
