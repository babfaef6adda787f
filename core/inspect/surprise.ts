import type { Fitted } from './fitted.ts';

/**
 * How seldom white noise alone would let one more part of a model explain so much, as a natural logarithm: 0 is always,
 * -7 is one in a thousand.
 * @param gainDb2     dB squared that the part explains
 * @param parameters  1 for a column with an amplitude, 2 for a sine of any phase
 * @param tried       how many such parts were tried to find this one, 1 or more
 * @returns  logarithm of an upper bound of the chance, at most 0
 * @source   Beta distribution of a share of normal squares: for two parameters the chance of a share above z is
 *           (1 - z)^((v - 2)/2) exactly (A. Schwarzenberg-Czerny, Monthly Notices of the Royal Astronomical Society 301
 *           (1998), 831-840); for one, the leading term of the incomplete beta function, which bounds it; Bonferroni's
 *           inequality for the trials
 */
export function logChanceOf(fitted: Fitted, gainDb2: number, parameters: 1 | 2, tried: number): number {
  const { freedom, squaresDb2 } = fitted;
  if (freedom <= parameters + 1 || !(gainDb2 > 0) || !(squaresDb2 > 0)) return 0;
  const share = Math.min(gainDb2 / squaresDb2, 1 - 1e-15);
  const half = (freedom - parameters) / 2;
  const one =
    parameters === 2
      ? half * Math.log1p(-share)
      : half * Math.log1p(-share) - 0.5 * Math.log(Math.PI * half * share);
  return Math.min(0, one + Math.log(Math.max(1, tried)));
}

/** Logarithm of the chance below which a part is believed: one in a thousand for each of the finders. */
export const BELIEVED = Math.log(0.001);
