import type { Line } from './fit-line.ts';
import { selectAt } from './select.ts';
import { SlopeCounts } from './slope-counts.ts';

/** With this few rows left to choose from, their own medians are cheaper than another count over all rows. */
const FEW_ROWS = 3;
/** After this many counts rows may tie (levels come in tenths), which no count can tell apart: a row's own median is tried. */
const COUNTS_BEFORE_PIVOT = 3;
/** Far more than any sweep needs; levels too large to compute with would go on for ever. */
const MOST_COUNTS = 300;
/** How far from the first guess the slope is looked for at first, dB from position 0 to 1. */
const FIRST_STEP_DB = 0.2;
/** How far from it the slope is looked for where only a bound is wanted. */
const BOUND_DB = 1;
/** Slopes this near are one slope: a billionth of a dB is rounding. */
const SAME_DB = 1e-9;

/**
 * The middle of some numbers; of an even count, the mean of the two in the middle.
 * @param values  any order, at least one; not changed
 * @returns  the median, in the unit of the values
 * @throws   RangeError when there are none
 * @source   definition
 */
export const medianOf = (values: ArrayLike<number>): number => medianInPlace(Float64Array.from(values));

/**
 * The same, but puts what it is given in another order.
 * @returns  the median
 * @throws   RangeError when there are none
 * @source   definition
 */
export function medianInPlace(values: Float64Array): number {
  const count = values.length;
  if (count === 0) throw new RangeError('no median of nothing');
  const upper = selectAt(values, count, count >> 1);
  if (count % 2 === 1) return upper;
  let lower = -Infinity;
  for (let i = 0; i < count >> 1; i++) if ((values[i] as number) > lower) lower = values[i] as number;
  return (lower + upper) / 2;
}

/** Of an even count the lower one of the two in the middle, so that counting decides on which side of it a slope lies. */
const lowMiddle = (count: number): number => (count + 1) >> 1;

/**
 * A line that fewer than half of the rows cannot pull away: the repeated median. For every row the median of the slopes
 * from it to all others, and of these medians the median; then the median of what the slope leaves of the levels. Of an
 * even number of slopes the lower one of the two in the middle is taken.
 *
 * Breakdown point: floor(n / 2) of n rows must be wrong before the line can be carried any distance; one fewer, and it
 * stays near the others, whatever they say. All rows count, however many.
 *
 * The slope is found without its n^2 pairs: how many of the rows' medians lie up to a given slope can be counted in
 * n log n, which narrows it down to a few rows, and only theirs are computed. The answer is the same.
 * @param position   no unit, in rising order, at least two different ones
 * @param levelDbmv  dBmV, as many as positions
 * @returns  level at position 0 (dBmV) and tilt (dB)
 * @throws   RangeError when no two positions differ
 * @source   A. F. Siegel, "Robust regression using repeated medians", Biometrika 69 (1982), 242-244; the counting: J.
 *           Matousek, D. M. Mount, N. S. Netanyahu, "Efficient randomized algorithms for the repeated median line
 *           estimator", Algorithmica 20 (1998), 136-150
 */
export function robustLine(position: ArrayLike<number>, levelDbmv: ArrayLike<number>): Line {
  const x = Float64Array.from(position);
  const y = Float64Array.from(levelDbmv);
  const n = x.length;
  if (!(n > 1 && (x[0] as number) < (x[n - 1] as number))) throw new RangeError('no two positions differ');
  const tiltDb = repeatedMedian(x, y);
  for (let i = 0; i < n; i++) y[i] = (y[i] as number) - tiltDb * (x[i] as number);
  return { lowDbmv: medianInPlace(y), tiltDb };
}

/**
 * Whether no row lies farther from the robust line than a limit, where that shows from two counts alone: the line's slope
 * lies within a dB of a first guess, so no row can be more than a dB farther from it than from the guess.
 * @param position   as for robustLine
 * @param nearDb     dB
 * @returns  true when it is certain; false when the line itself has to be looked at
 * @source   see `robustLine`
 */
export function allWithin(position: Float64Array, levelDbmv: Float64Array, nearDb: number): boolean {
  const n = position.length;
  const guessDb = firstGuess(position, levelDbmv);
  const offDb = new Float64Array(n);
  for (let i = 0; i < n; i++) offDb[i] = (levelDbmv[i] as number) - guessDb * (position[i] as number);
  const middleDb = medianInPlace(offDb);
  for (let i = 0; i < n; i++)
    if (!(Math.abs((offDb[i] as number) - middleDb) + BOUND_DB < nearDb)) return false;
  const rows = new RowMedians(position, levelDbmv);
  return rows.upTo(guessDb + BOUND_DB) >= rows.wanted && rows.upTo(guessDb - BOUND_DB) < rows.wanted;
}

/** The medians of the rows, as far as counting tells on which side of a slope they lie. */
class RowMedians {
  /** Which of the medians, by size, is the slope. */
  readonly wanted: number;
  /** Per row whether its median lies up to the slope last asked for. */
  within: Uint8Array;
  private readonly slopes: SlopeCounts;

  constructor(x: Float64Array, y: Float64Array) {
    this.wanted = lowMiddle(x.length);
    this.within = new Uint8Array(x.length);
    this.slopes = new SlopeCounts(x, y);
  }

  upTo(slopeDb: number): number {
    const { counts, pairs } = this.slopes;
    this.slopes.countUpTo(slopeDb);
    let rows = 0;
    for (let i = 0; i < counts.length; i++) {
      const is = (counts[i] as number) >= lowMiddle(pairs[i] as number) ? 1 : 0;
      this.within[i] = is;
      rows += is;
    }
    return rows;
  }
}

/** Where the slope lies: above `lowDb`, up to which `belowRows` rows have their medians, and not above `highDb`. */
type Bracket = {
  lowDb: number;
  highDb: number;
  belowRows: number;
  upperRows: number;
  below: Uint8Array;
  upper: Uint8Array;
};

function repeatedMedian(x: Float64Array, y: Float64Array): number {
  const n = x.length;
  const medians = new RowMedians(x, y);
  const { wanted } = medians;
  const at: Bracket = {
    ...{ lowDb: -Infinity, highDb: Infinity, belowRows: 0, upperRows: n },
    below: new Uint8Array(n),
    upper: new Uint8Array(n).fill(1),
  };
  /** Narrows the bracket by one slope; true when it is the new upper end. */
  const narrow = (slopeDb: number): boolean => {
    const rows = medians.upTo(slopeDb);
    const within = medians.within;
    if (rows >= wanted) {
      medians.within = at.upper;
      Object.assign(at, { highDb: slopeDb, upperRows: rows, upper: within });
      return true;
    }
    medians.within = at.below;
    Object.assign(at, { lowDb: slopeDb, belowRows: rows, below: within });
    return false;
  };
  let tryDb = firstGuess(x, y);
  let stepDb = FIRST_STEP_DB;
  for (let counts = 0; at.upperRows - at.belowRows > FEW_ROWS && counts < MOST_COUNTS; counts++) {
    const isBounded = at.highDb < Infinity && at.lowDb > -Infinity;
    if (isBounded && counts > COUNTS_BEFORE_PIVOT) {
      const pivotDb = medianOfRow(x, y, pivotOf(at));
      if (narrow(pivotDb + SAME_DB) && !narrow(pivotDb - SAME_DB)) return pivotDb;
      continue;
    }
    narrow(tryDb);
    if (at.highDb === Infinity) tryDb = at.lowDb + stepDb;
    else if (at.lowDb === -Infinity) tryDb = at.highDb - stepDb;
    else tryDb = between(at.lowDb, at.highDb, (wanted - at.belowRows - 0.5) / (at.upperRows - at.belowRows));
    stepDb *= 4;
  }
  return nthMedian(x, y, at, wanted - at.belowRows);
}

/** The middle one of the rows whose medians lie in the bracket. */
function pivotOf({ below, upper, upperRows, belowRows }: Bracket): number {
  let left = (upperRows - belowRows) >> 1;
  for (let i = 0; i < upper.length; i++) if (upper[i] === 1 && below[i] === 0 && left-- === 0) return i;
  return 0;
}

/** Where the wanted row is thought to be, but never so near to an end that little is gained. */
const between = (lowDb: number, highDb: number, share: number): number =>
  lowDb + (highDb - lowDb) * Math.min(0.9, Math.max(0.1, share));

/** The slope between the middles of the first and the last third. */
function firstGuess(x: Float64Array, y: Float64Array): number {
  const third = Math.max(1, Math.floor(x.length / 3));
  const from = x.length - third;
  const run = (x[from + (third >> 1)] as number) - (x[third >> 1] as number);
  const rise = medianInPlace(y.slice(from)) - medianInPlace(y.slice(0, third));
  return run > 0 && Number.isFinite(rise) ? rise / run : 0;
}

/** The wanted smallest of the medians of the rows in the bracket. */
function nthMedian(x: Float64Array, y: Float64Array, { below, upper }: Bracket, nth: number): number {
  const medians = new Float64Array(x.length);
  let rows = 0;
  for (let i = 0; i < x.length; i++)
    if (below[i] !== 1 && upper[i] === 1) medians[rows++] = medianOfRow(x, y, i);
  if (rows === 0) throw new RangeError('no row is left to take the slope from');
  return selectAt(medians, rows, Math.min(rows, Math.max(1, nth)) - 1);
}

/** The low median of the slopes from one row to all at other positions. */
function medianOfRow(x: Float64Array, y: Float64Array, row: number): number {
  const slopes = new Float64Array(x.length);
  const hereX = x[row] as number;
  const hereY = y[row] as number;
  let count = 0;
  for (let j = 0; j < x.length; j++) {
    const run = (x[j] as number) - hereX;
    if (run !== 0) slopes[count++] = ((y[j] as number) - hereY) / run;
  }
  return selectAt(slopes, count, lowMiddle(count) - 1);
}
