/**
 * The share of a normal spread below a value.
 * @param deviations  the value's distance from the middle in standard deviations
 * @returns  0 to 1; to 15 digits within 7 standard deviations, 0 or 1 beyond 40
 * @throws   RangeError when it is not a number
 * @source   G. Marsaglia, "Evaluating the Normal Distribution", Journal of Statistical Software 11 (2004), 4: the series
 *           of the integral over the density; beyond 6 deviations the continued fraction of the tail (Laplace)
 */
export function normalBelow(deviations: number): number {
  if (Number.isNaN(deviations)) throw new RangeError('no share below NaN');
  if (deviations > 40) return 1;
  if (deviations < -40) return 0;
  const density = Math.exp((-deviations * deviations) / 2) / Math.sqrt(2 * Math.PI);
  const far = Math.abs(deviations);
  if (far > 6) {
    let fraction = far;
    for (let k = 60; k >= 1; k--) fraction = far + k / fraction;
    const tail = density / fraction;
    return deviations < 0 ? tail : 1 - tail;
  }
  let sum = deviations;
  let term = deviations;
  for (let k = 3; sum !== sum + term || k === 3; k += 2) {
    term *= (deviations * deviations) / k;
    sum += term;
    if (k > 400) break;
  }
  return Math.min(1, Math.max(0, 0.5 + density * sum));
}
