import type { Line } from './fit-line.ts';

/** What a line leaves over. `worstIndex` is the row of the largest deviation, the first of equals. */
export type Residuals = Readonly<{
  deviationDb: readonly number[];
  flatnessDb: number;
  rmsDb: number;
  worstIndex: number;
}>;

/**
 * What is left of the levels when the line is taken away: r = L - (a + b x).
 * @param line       level at position 0 (dBmV), tilt (dB)
 * @param position   no unit, one or more
 * @param levelDbmv  dBmV, as many as positions
 * @returns  deviations (dB) in the rows' order, flatness = max r - min r (dB, peak to valley), root mean square (dB)
 * @throws   RangeError when there is no row or the two differ in length
 * @source   contract, section 3, "fit, exactly"; flatness as maximum peak-to-valley excursion: ANSI/SCTE 144 2007, 2.2.8
 */
export function residualsOf(
  line: Line,
  position: ArrayLike<number>,
  levelDbmv: ArrayLike<number>,
): Residuals {
  if (position.length === 0 || position.length !== levelDbmv.length)
    throw new RangeError(`${position.length} positions, ${levelDbmv.length} levels`);
  const deviationDb: number[] = [];
  let maxDb = -Infinity;
  let minDb = Infinity;
  let squares = 0;
  let worstIndex = 0;
  let worstDb = 0;
  for (let i = 0; i < position.length; i++) {
    const r = (levelDbmv[i] ?? 0) - (line.lowDbmv + line.tiltDb * (position[i] ?? 0));
    deviationDb.push(r);
    maxDb = Math.max(maxDb, r);
    minDb = Math.min(minDb, r);
    squares += r * r;
    if (Math.abs(r) > worstDb) {
      worstIndex = i;
      worstDb = Math.abs(r);
    }
  }
  return { deviationDb, flatnessDb: maxDb - minDb, rmsDb: Math.sqrt(squares / position.length), worstIndex };
}
