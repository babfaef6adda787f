/**
 * Some rows of a sweep after a model was fitted to them by least squares, ready for asking what one more part of the
 * model would explain.
 */
export type Fitted = Readonly<{
  /** Rising, MHz. */
  mhz: readonly number[];
  /** What the model leaves, dB. */
  residualDb: Float64Array;
  /** The model's columns, made orthogonal and of length 1. */
  columns: readonly Float64Array[];
  /** Rows less columns. */
  freedom: number;
  /** Sum of the squared residuals, dB squared, with what no meter resolves added. */
  squaresDb2: number;
}>;

/** What tenths of a dB leave behind as noise: 0.1 / sqrt(12). A fit that is better than this knows nothing more. */
const RESOLUTION_DB = 0.03;

/** A column that others already explain to this part, of its squares, adds nothing of its own. */
export const OWN_PART = 0.02;

const dot = (a: Float64Array, b: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] ?? 0) * (b[i] ?? 0);
  return sum;
};

function lessItsShadow(column: Float64Array, unit: Float64Array): void {
  const share = dot(column, unit);
  for (let i = 0; i < column.length; i++) column[i] = (column[i] ?? 0) - share * (unit[i] ?? 0);
}

/**
 * Fits columns to levels by least squares.
 * @param mhz      rising, MHz
 * @param dbmv     as many, dBmV
 * @param columns  each as long as mhz, no unit; one that the others already span is left out
 * @returns  the residuals in dB and what is needed to ask further
 * @source   modified Gram-Schmidt, done twice: A. Bjorck, "Numerics of Gram-Schmidt Orthogonalization", Linear Algebra
 *           and its Applications 197/198 (1994), 297-316
 */
export function fitColumns(
  mhz: readonly number[],
  dbmv: readonly number[],
  columns: readonly Float64Array[],
): Fitted {
  const units: Float64Array[] = [];
  for (const column of columns) {
    const own = Float64Array.from(column);
    const before = dot(own, own);
    for (let pass = 0; pass < 2; pass++) for (const unit of units) lessItsShadow(own, unit);
    const squares = dot(own, own);
    if (squares <= before * 1e-10) continue;
    const scale = 1 / Math.sqrt(squares);
    units.push(own.map((x) => x * scale));
  }
  const residualDb = Float64Array.from(dbmv);
  for (let pass = 0; pass < 2; pass++) for (const unit of units) lessItsShadow(residualDb, unit);
  const freedom = mhz.length - units.length;
  const squaresDb2 = dot(residualDb, residualDb) + Math.max(0, freedom) * RESOLUTION_DB ** 2;
  return { mhz, residualDb, columns: units, freedom, squaresDb2 };
}

/** One more column that is zero but from row `at` on for as many rows as `values`. */
export type Patch = Readonly<{ at: number; values: readonly number[] }>;
/** What one more column would explain: dB squared of the residuals, with this amplitude in dB. */
export type Explained = Readonly<{ gainDb2: number; amplitudeDb: number }>;

/**
 * What one more column would explain beside those already fitted.
 * @param patch  no unit
 * @returns  0 and 0 where the model already spans it
 * @source   least squares
 */
export function explainedBy({ residualDb, columns }: Fitted, { at, values }: Patch): Explained {
  let own = 0;
  let along = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? 0;
    own += value * value;
    along += value * (residualDb[at + i] ?? 0);
  }
  let left = own;
  for (const column of columns) {
    let share = 0;
    for (let i = 0; i < values.length; i++) share += (values[i] ?? 0) * (column[at + i] ?? 0);
    left -= share * share;
  }
  if (!(left > own * OWN_PART)) return { gainDb2: 0, amplitudeDb: 0 };
  return { gainDb2: (along * along) / left, amplitudeDb: along / left };
}

/**
 * What a sine of any phase would explain.
 * @param perMhz  its frequency along the frequency axis, periods a MHz
 * @returns  gain in dB squared and amplitude (half of its swing) in dB; 0 and 0 where the model already spans it
 * @source   N. R. Lomb, "Least-squares frequency analysis of unequally spaced data", Astrophysics and Space Science 39
 *           (1976), 447-462, with the model's columns fitted together with the sine
 */
export function explainedBySine({ mhz, residualDb, columns }: Fitted, perMhz: number): Explained {
  const n = mhz.length;
  const cosine = new Float64Array(n);
  const sine = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const angle = 2 * Math.PI * perMhz * (mhz[i] ?? 0);
    cosine[i] = Math.cos(angle);
    sine[i] = Math.sin(angle);
  }
  let cc = dot(cosine, cosine);
  let ss = dot(sine, sine);
  let cs = dot(cosine, sine);
  for (const column of columns) {
    const c = dot(cosine, column);
    const s = dot(sine, column);
    cc -= c * c;
    ss -= s * s;
    cs -= c * s;
  }
  const determinant = cc * ss - cs * cs;
  if (!(determinant > (n * OWN_PART) ** 2)) return { gainDb2: 0, amplitudeDb: 0 };
  const cr = dot(cosine, residualDb);
  const sr = dot(sine, residualDb);
  const a = (ss * cr - cs * sr) / determinant;
  const b = (cc * sr - cs * cr) / determinant;
  return { gainDb2: a * cr + b * sr, amplitudeDb: Math.hypot(a, b) };
}
