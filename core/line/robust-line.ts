import type { Line } from './fit-line.ts';
import { selectAt } from './select.ts';
import { SlopeCounts } from './slope-counts.ts';

/** With this few rows left to choose from, their own medians are cheaper than another count over all rows. */
const FEW_ROWS = 3;
/** So often the row that the last count points to is tried; a sweep made to mislead that gets the rows as they stand. */
const POINTED_TRIES = 8;
/** Far more than any sweep needs; levels too large to compute with would go on for ever. */
const MOST_TRIES = 300;
/** How far from the guess the slope is looked for where only a bound is wanted. */
const BOUND_DB = 1;
/** Where it shows from the spread of the rows alone, this many of them are looked at. */
const QUIET_SHARE = 7 / 8;
/** Slopes this near are one slope: a billionth of a dB is rounding. */
const SAME_DB = 1e-9;
const SAME_SHARE = 1e-12;

/**
 * The middle of some numbers; of an even count, the mean of the two in the middle.
 * @param values  any order, at least one; not changed
 * @returns  the median, in the unit of the values
 * @throws   RangeError when there are none
 * @source   definition
 */
export const medianOf = (values: ArrayLike<number>): number => medianInPlace(copyOf(values));

/** A loop, because `from`, `slice` and `map` of a typed array take several times as long for so few numbers. */
function copyOf(values: ArrayLike<number>): Float64Array {
  const copy = new Float64Array(values.length);
  for (let i = 0; i < copy.length; i++) copy[i] = values[i] as number;
  return copy;
}

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
  const x = copyOf(position);
  const y = copyOf(levelDbmv);
  const n = x.length;
  if (!(n > 1 && (x[0] as number) < (x[n - 1] as number))) throw new RangeError('no two positions differ');
  const tiltDb = repeatedMedian(x, y);
  for (let i = 0; i < n; i++) y[i] = (y[i] as number) - tiltDb * (x[i] as number);
  return { lowDbmv: medianInPlace(y), tiltDb };
}

/**
 * Whether no row lies farther from the robust line than a limit, where that shows without the line: its slope lies so near
 * to a first guess that no row can be as much farther from it than from the guess. That shows from how little most rows
 * spread about the guess, or else from two counts.
 * @param position   as for robustLine
 * @param nearDb     dB
 * @returns  true when it is certain; false when the line itself has to be looked at
 * @source   see `robustLine`
 */
export function allWithin(position: Float64Array, levelDbmv: Float64Array, nearDb: number): boolean {
  const n = position.length;
  const offDb = new Float64Array(n);
  const guessDb = firstGuess(position, levelDbmv, offDb);
  for (let i = 0; i < n; i++) offDb[i] = (levelDbmv[i] as number) - guessDb * (position[i] as number);
  const sizeDb = Float64Array.from(offDb);
  const middleDb = medianInPlace(sizeDb);
  let widestDb = 0;
  for (let i = 0; i < n; i++) {
    const size = Math.abs((offDb[i] as number) - middleDb);
    if (!(size + BOUND_DB < nearDb)) return false;
    sizeDb[i] = size;
    widestDb = Math.max(widestDb, size);
  }
  if (isQuiet(position, sizeDb, nearDb - widestDb)) return true;
  const slopes = new SlopeCounts(position, levelDbmv);
  const wanted = lowMiddle(n);
  return (
    mediansUpTo(slopes, guessDb + BOUND_DB) >= wanted && mediansUpTo(slopes, guessDb - BOUND_DB) < wanted
  );
}

/**
 * Whether the robust slope must lie within a bound of the guess: two rows that are off by no more than q have a slope within
 * 2q / distance of it. Where, for every such row, more than half of the others are such rows and far enough away, its own
 * median lies within the bound, and where they are more than half of all, so does the median of these.
 */
function isQuiet(position: Float64Array, sizeDb: Float64Array, boundDb: number): boolean {
  const n = position.length;
  const quiet = Math.ceil(n * QUIET_SHARE);
  // Puts the sizes in another order; they are not needed any more.
  const mostDb = selectAt(sizeDb, n, quiet - 1);
  const apart = (2 * mostDb + SAME_DB) / (boundDb - SAME_DB);
  let near = 0;
  for (let i = 0, from = 0, to = 0; i < n; i++) {
    const here = position[i] as number;
    while (here - (position[from] as number) >= apart) from++;
    while (to < n && (position[to] as number) - here < apart) to++;
    near = Math.max(near, to - from - 1);
  }
  return 2 * (quiet - 1 - near) > n - 1;
}

/** How many of the rows have their own median up to a slope. */
function mediansUpTo(slopes: SlopeCounts, slopeDb: number): number {
  slopes.countUpTo(slopeDb);
  let rows = 0;
  for (let i = 0; i < slopes.counts.length; i++) if (isWithin(slopes, i)) rows++;
  return rows;
}

/** Whether a row's own median lies up to the slope that was last counted. */
const isWithin = ({ counts, pairs }: SlopeCounts, row: number): boolean =>
  (counts[row] as number) >= lowMiddle(pairs[row] as number);

/** The rows whose medians may still be the slope: `count` of them are open, `belowRows` are known to lie below. */
class OpenRows {
  readonly isOpen: Uint8Array;
  count: number;
  belowRows = 0;
  private readonly slopes: SlopeCounts;
  private readonly wanted: number;

  constructor(slopes: SlopeCounts, wanted: number) {
    this.slopes = slopes;
    this.wanted = wanted;
    this.count = slopes.counts.length;
    this.isOpen = new Uint8Array(this.count).fill(1);
  }

  /** Counts at a slope and closes the rows that can no longer be it; true when it lies at or below that slope. */
  narrow(slopeDb: number): boolean {
    this.slopes.countUpTo(slopeDb);
    let within = 0;
    for (let i = 0; i < this.isOpen.length; i++)
      if (this.isOpen[i] === 1 && isWithin(this.slopes, i)) within++;
    const isUpper = this.belowRows + within >= this.wanted;
    for (let i = 0; i < this.isOpen.length; i++)
      if (this.isOpen[i] === 1 && isWithin(this.slopes, i) !== isUpper) this.isOpen[i] = 0;
    this.count = isUpper ? within : this.count - within;
    if (!isUpper) this.belowRows += within;
    return isUpper;
  }

  /** Which of the open rows' medians, by size, is the slope: 0 for the smallest. */
  get place(): number {
    return Math.min(this.count, this.wanted - this.belowRows) - 1;
  }
}

function repeatedMedian(x: Float64Array, y: Float64Array): number {
  const scratch = new Float64Array(x.length);
  const slopes = new SlopeCounts(x, y);
  const open = new OpenRows(slopes, lowMiddle(x.length));
  open.narrow(firstGuess(x, y, scratch));
  const awayOf = awaySums(x);
  for (let tries = 0; open.count > FEW_ROWS && tries < MOST_TRIES; tries++) {
    const row = tries < POINTED_TRIES ? pointedRow(slopes, open, awayOf, scratch) : middleRow(open);
    const tryDb = medianOfRow(x, y, row, scratch);
    const sameDb = SAME_DB + SAME_SHARE * Math.abs(tryDb);
    if (open.narrow(tryDb + sameDb) && !open.narrow(tryDb - sameDb)) return tryDb;
  }
  return nthMedian(x, y, open, scratch);
}

/** Per row how far all the others lie from it, added up: where that is much, few dB hold many slopes. */
function awaySums(x: Float64Array): Float64Array {
  const n = x.length;
  const sums = new Float64Array(n);
  let below = 0;
  let above = 0;
  for (let i = 0; i < n; i++) above += x[i] as number;
  for (let i = 0; i < n; i++) {
    const here = x[i] as number;
    above -= here;
    sums[i] = here * i - below + above - here * (n - 1 - i);
    below += here;
  }
  return sums;
}

/**
 * The open row whose median is thought to be the slope: by how many slopes each row's median lies beyond the last count,
 * and how dense its slopes are. A thought only; what it gives is counted.
 */
function pointedRow(
  slopes: SlopeCounts,
  open: OpenRows,
  awayOf: Float64Array,
  scratch: Float64Array,
): number {
  const beyond = (row: number): number =>
    (lowMiddle(slopes.pairs[row] as number) - 0.5 - (slopes.counts[row] as number)) / (awayOf[row] as number);
  const { isOpen } = open;
  let rows = 0;
  for (let i = 0; i < isOpen.length; i++) if (isOpen[i] === 1) scratch[rows++] = beyond(i);
  const wanted = selectAt(scratch, rows, Math.max(0, open.place));
  for (let i = 0; i < isOpen.length; i++) if (isOpen[i] === 1 && beyond(i) === wanted) return i;
  return middleRow(open);
}

/** The middle one of the open rows as they stand. */
function middleRow({ isOpen, count }: OpenRows): number {
  let left = count >> 1;
  for (let i = 0; i < isOpen.length; i++) if (isOpen[i] === 1 && left-- === 0) return i;
  return 0;
}

/** The slope between the middles of the first and the last third. */
function firstGuess(x: Float64Array, y: Float64Array, scratch: Float64Array): number {
  const third = Math.max(1, Math.floor(x.length / 3));
  const from = x.length - third;
  const run = (x[from + (third >> 1)] as number) - (x[third >> 1] as number);
  const rise = middleFrom(y, from, third, scratch) - middleFrom(y, 0, third, scratch);
  return run > 0 && Number.isFinite(rise) ? rise / run : 0;
}

/** The low median of so many levels from one row on. */
function middleFrom(y: Float64Array, from: number, count: number, scratch: Float64Array): number {
  for (let i = 0; i < count; i++) scratch[i] = y[from + i] as number;
  return selectAt(scratch, count, lowMiddle(count) - 1);
}

/** The wanted smallest of the medians of the open rows. */
function nthMedian(x: Float64Array, y: Float64Array, open: OpenRows, scratch: Float64Array): number {
  const medians: number[] = [];
  for (let i = 0; i < x.length; i++) if (open.isOpen[i] === 1) medians.push(medianOfRow(x, y, i, scratch));
  const nth = medians.sort((a, b) => a - b)[Math.max(0, open.place)];
  if (nth === undefined) throw new RangeError('no row is left to take the slope from');
  return nth;
}

/** The low median of the slopes from one row to all at other positions. */
function medianOfRow(x: Float64Array, y: Float64Array, row: number, scratch: Float64Array): number {
  const hereX = x[row] as number;
  const hereY = y[row] as number;
  let count = 0;
  for (let j = 0; j < x.length; j++) {
    const run = (x[j] as number) - hereX;
    if (run !== 0) scratch[count++] = ((y[j] as number) - hereY) / run;
  }
  return selectAt(scratch, count, lowMiddle(count) - 1);
}
