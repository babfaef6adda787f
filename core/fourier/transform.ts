/**
 * The discrete Fourier transform with a positive exponent, in place: z_k = sum over j of z_j e^(2 pi i j k / n).
 * @param re  real parts, no unit; as many as a power of two
 * @param im  imaginary parts, as many
 * @throws   RangeError when they are not as many, or no power of two
 * @source   J. W. Cooley, J. W. Tukey, "An Algorithm for the Machine Calculation of Complex Fourier Series", Mathematics of
 *           Computation 19 (1965), 297-301 (from memory)
 */
export function transform(re: Float64Array, im: Float64Array): void {
  const n = re.length;
  if (im.length !== n || n === 0 || (n & (n - 1)) !== 0)
    throw new RangeError(`${n} and ${im.length} parts are no power of two`);
  bitsTurned(re, im);
  // Each turn made by itself: turning on from the one before would add up errors.
  const cos = new Float64Array(n >> 1);
  const sin = new Float64Array(n >> 1);
  for (let k = 0; k < n >> 1; k++) {
    cos[k] = Math.cos((2 * Math.PI * k) / n);
    sin[k] = Math.sin((2 * Math.PI * k) / n);
  }
  for (let half = 1; half < n; half *= 2) {
    const step = n / (2 * half);
    for (let from = 0; from < n; from += 2 * half)
      for (let k = 0; k < half; k++) {
        const low = from + k;
        const high = low + half;
        const c = cos[k * step] as number;
        const s = sin[k * step] as number;
        const x = re[high] as number;
        const y = im[high] as number;
        const turnedX = x * c - y * s;
        const turnedY = x * s + y * c;
        re[high] = (re[low] as number) - turnedX;
        im[high] = (im[low] as number) - turnedY;
        re[low] = (re[low] as number) + turnedX;
        im[low] = (im[low] as number) + turnedY;
      }
  }
}

/** Every part to the place whose number has the same bits the other way round. */
function bitsTurned(re: Float64Array, im: Float64Array): void {
  const n = re.length;
  for (let i = 0, j = 0; i < n; i++) {
    if (j > i) {
      const [x, y] = [re[i] as number, im[i] as number];
      re[i] = re[j] as number;
      im[i] = im[j] as number;
      re[j] = x;
      im[j] = y;
    }
    let bit = n >> 1;
    for (; bit > 0 && (j & bit) !== 0; bit >>= 1) j ^= bit;
    j |= bit;
  }
}
