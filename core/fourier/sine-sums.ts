import { cfft } from 'fourier-transform';

/** Which frequencies along the frequency axis: `count` of them, periods a MHz, evenly apart. */
export type EvenlyApart = Readonly<{ fromPerMhz: number; stepPerMhz: number; count: number }>;
/** For each of them the sums of value times cosine and value times sine. */
export type SineSums = Readonly<{ cosine: Float64Array; sine: Float64Array }>;

/** Each row is spread over so many places of the grid on each side: enough for twelve digits at twice as many places as sums. */
const REACH = 12;

/**
 * Sums of values times the cosine and the sine of 2 pi p f, for many p evenly apart and rows anywhere: in n log n instead of
 * one sine for each row and each p.
 * @param mhz     f of each row, MHz, any order
 * @param values  some lists, each as long as mhz; any unit
 * @param places  the p, periods a MHz; one or more
 * @returns  for each list the sums, in its unit; off by about 1e-11 of the sum of the values' sizes, no more
 * @throws   RangeError when a list is of another length, or no p is asked for
 * @source   L. Greengard, J.-Y. Lee, "Accelerating the Nonuniform Fast Fourier Transform", SIAM Review 46 (2004), 443-454:
 *           type 1 with a Gaussian (from memory; held against the plain sums in the tests)
 */
export function sineSums(
  mhz: readonly number[],
  values: readonly ArrayLike<number>[],
  { fromPerMhz, stepPerMhz, count }: EvenlyApart,
): readonly SineSums[] {
  if (!(count >= 1) || values.some(({ length }) => length !== mhz.length))
    throw new RangeError(`${count} sums over ${mhz.length} rows`);
  const middle = count >> 1;
  const size = 2 ** Math.ceil(Math.log2(Math.max(2 * count, 4 * REACH)));
  const more = size / count;
  const width = (Math.PI * REACH) / (count * count * more * (more - 0.5));
  const spread = spreadOf(mhz, fromPerMhz + middle * stepPerMhz, stepPerMhz, size, width);
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  return values.map((list) => {
    re.fill(0);
    im.fill(0);
    spreadOn(re, im, list, spread);
    // Real and imaginary parts exchanged: the exponent becomes positive.
    cfft(im, re);
    const cosine = new Float64Array(count);
    const sine = new Float64Array(count);
    const scale = Math.sqrt(Math.PI / width) / size;
    for (let i = 0; i < count; i++) {
      const k = i - middle;
      const at = (k + size) % size;
      const sharp = scale * Math.exp(k * k * width);
      cosine[i] = sharp * (re[at] as number);
      sine[i] = sharp * (im[at] as number);
    }
    return { cosine, sine };
  });
}

/** How each row lies on the grid: its turn at the middle p, its first place, and its share of each place from there on. */
type Spread = Readonly<{
  cos: Float64Array;
  sin: Float64Array;
  firstAt: Int32Array;
  shares: Float64Array;
}>;

function spreadOf(
  mhz: readonly number[],
  middlePerMhz: number,
  stepPerMhz: number,
  size: number,
  width: number,
): Spread {
  const n = mhz.length;
  const [cos, sin] = [new Float64Array(n), new Float64Array(n)];
  const firstAt = new Int32Array(n);
  const shares = new Float64Array(n * 2 * REACH);
  const apart = (2 * Math.PI) / size;
  for (let j = 0; j < n; j++) {
    const f = mhz[j] as number;
    const turn = 2 * Math.PI * middlePerMhz * f;
    cos[j] = Math.cos(turn);
    sin[j] = Math.sin(turn);
    const turns = stepPerMhz * f;
    const place = (turns - Math.floor(turns)) * size;
    const nearest = Math.floor(place);
    firstAt[j] = nearest - REACH + 1;
    for (let k = 0; k < 2 * REACH; k++) {
      const away = (nearest - REACH + 1 + k - place) * apart;
      shares[j * 2 * REACH + k] = Math.exp(-(away * away) / (4 * width));
    }
  }
  return { cos, sin, firstAt, shares };
}

function spreadOn(
  re: Float64Array,
  im: Float64Array,
  list: ArrayLike<number>,
  { cos, sin, firstAt, shares }: Spread,
): void {
  const size = re.length;
  for (let j = 0; j < list.length; j++) {
    const value = list[j] as number;
    const x = value * (cos[j] as number);
    const y = value * (sin[j] as number);
    const first = firstAt[j] as number;
    for (let k = 0; k < 2 * REACH; k++) {
      const at = (first + k + size) % size;
      const share = shares[j * 2 * REACH + k] as number;
      re[at] = (re[at] as number) + share * x;
      im[at] = (im[at] as number) + share * y;
    }
  }
}
