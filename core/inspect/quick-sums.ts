import { sineSums } from '../fourier/sine-sums.ts';
import { type Fitted, OWN_PART } from './fitted.ts';

/** Nearer than this to where a column adds nothing of its own, quick sums can't tell on which side it is. */
const DOUBT = 1e-6;

/**
 * The gain of a column beside those of a model from its sums.
 * @param ownSquares  of the column, no unit
 * @param left        what of them the model's columns do not explain
 * @param alongDb     the column's sum with the residuals, dB
 * @returns  dB squared; 0 where the model spans it already; NaN where that is in doubt
 * @source   least squares, as `explainedBy`
 */
export function gainOf(ownSquares: number, left: number, alongDb: number): number {
  const over = left - ownSquares * OWN_PART;
  if (Math.abs(over) <= ownSquares * DOUBT) return Number.NaN;
  return over > 0 ? (alongDb * alongDb) / left : 0;
}

/**
 * What each of many sines of any phase would explain, by fast sums.
 * @param places  which, periods a MHz, evenly apart
 * @returns  dB squared each, as `explainedBySine` to about 1e-8 of all squares; NaN where it is in doubt whether the model
 *           spans it already
 * @source   as `explainedBySine`; the sums: see `sineSums`
 */
export function sinesAbout(
  { mhz, residualDb, columns }: Fitted,
  places: Readonly<{ fromPerMhz: number; stepPerMhz: number; count: number }>,
): Float64Array {
  const n = mhz.length;
  const [along, ...shares] = sineSums(mhz, [residualDb, ...columns], places);
  const [twice] = sineSums(mhz, [new Float64Array(n).fill(1)], {
    fromPerMhz: 2 * places.fromPerMhz,
    stepPerMhz: 2 * places.stepPerMhz,
    count: places.count,
  });
  if (along === undefined || twice === undefined) throw new RangeError('no sums');
  const least = (n * OWN_PART) ** 2;
  return Float64Array.from({ length: places.count }, (_, k) => {
    const cosine2 = twice.cosine[k] as number;
    let cc = (n + cosine2) / 2;
    let ss = (n - cosine2) / 2;
    let cs = (twice.sine[k] as number) / 2;
    for (const { cosine, sine } of shares) {
      const c = cosine[k] as number;
      const s = sine[k] as number;
      cc -= c * c;
      ss -= s * s;
      cs -= c * s;
    }
    const determinant = cc * ss - cs * cs;
    if (Math.abs(determinant - least) <= n * n * DOUBT * OWN_PART) return Number.NaN;
    if (determinant < least) return 0;
    const cr = along.cosine[k] as number;
    const sr = along.sine[k] as number;
    return (ss * cr * cr - 2 * cs * cr * sr + cc * sr * sr) / determinant;
  });
}
