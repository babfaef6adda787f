/** ln of the gamma function above 0.5, by Lanczos's series: good to 14 digits. */
function lnGamma(x: number): number {
  const series = [
    676.5203681218851, -1259.1392167224028, 771.3234287776531, -176.6150291621406, 12.507343278686905,
    -0.13857109526572012, 9.984369578019572e-6, 1.5056327351493116e-7,
  ];
  const y = x - 1;
  const t = y + 7.5;
  const sum = series.reduce((total, term, i) => total + term / (y + i + 1), 0.9999999999998099);
  return 0.5 * Math.log(2 * Math.PI) + (y + 0.5) * Math.log(t) - t + Math.log(sum);
}

/** The continued fraction of the incomplete beta function, by Lentz's method. */
function betaFraction(x: number, a: number, b: number): number {
  const tiny = 1e-300;
  const kept = (value: number) => (Math.abs(value) < tiny ? tiny : value);
  let c = 1;
  let d = 1 / kept(1 - ((a + b) * x) / (a + 1));
  let h = d;
  for (let m = 1; m <= 300; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / kept(1 + even * d);
    c = kept(1 + even / c);
    h *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / kept(1 + odd * d);
    c = kept(1 + odd / c);
    const factor = d * c;
    h *= factor;
    if (Math.abs(factor - 1) < 1e-15) break;
  }
  return h;
}

/**
 * How often Student's t lies at least so far from 0, on either side.
 * @param t        the statistic, no unit; its sign does not matter
 * @param freedom  degrees of freedom, above 0
 * @returns  a chance, 0 to 1
 * @throws   RangeError on no number or no freedom
 * @source   incomplete beta function: Abramowitz and Stegun, "Handbook of Mathematical Functions", 26.5.27 and 26.5.8;
 *           W. J. Lentz, Applied Optics 15 (1976), 668-671; C. Lanczos, SIAM Journal on Numerical Analysis B 1 (1964),
 *           86-96
 */
export function chanceOfT(t: number, freedom: number): number {
  if (Number.isNaN(t) || !(freedom > 0) || !Number.isFinite(freedom))
    throw new RangeError(`t of ${t} with ${freedom} degrees of freedom`);
  const a = freedom / 2;
  const x = freedom / (freedom + t * t);
  if (x >= 1) return 1;
  if (x <= 0) return 0;
  const front = Math.exp(
    a * Math.log(x) + 0.5 * Math.log1p(-x) + lnGamma(a + 0.5) - lnGamma(a) - lnGamma(0.5),
  );
  const chance =
    x < (a + 1) / (a + 2.5)
      ? (front * betaFraction(x, a, 0.5)) / a
      : 1 - (front * betaFraction(1 - x, 0.5, a)) / 0.5;
  return Math.min(1, Math.max(0, chance));
}
