import type { Polar } from './read-touchstone.ts';

type Complex = Readonly<{ re: number; im: number }>;

const complexOf = ({ db, degrees }: Polar): Complex => {
  const magnitude = db === null ? 0 : 10 ** (db / 20);
  const angle = (degrees * Math.PI) / 180;
  return { re: magnitude * Math.cos(angle), im: magnitude * Math.sin(angle) };
};
const times = (a: Complex, b: Complex): Complex => ({
  re: a.re * b.re - a.im * b.im,
  im: a.re * b.im + a.im * b.re,
});
const minus = (a: Complex, b: Complex): Complex => ({ re: a.re - b.re, im: a.im - b.im });
const real = (re: number): Complex => ({ re, im: 0 });

/**
 * What a two-port passes from port 1 to port 2 in a line of another impedance than that of its measurement; exact, for
 * a change of reference needs all four S parameters.
 * @param parameters  S11, S12, S21, S22
 * @param fromOhm     real reference of port 1 and of port 2 in the measurement
 * @param toOhm       real reference of both ports in the line
 * @returns  S21 in the new reference, dB; null where nothing passes, or where the two-port and the line have no finite answer
 * @throws   RangeError for another number of parameters or an impedance that is not above 0: no caller may give them
 * @source   K. Kurokawa, "Power Waves and the Scattering Matrix", IEEE Trans. MTT-13 (1965), 194-202, from memory: with
 *           R = (Z' - Z)/(Z' + Z) of each port, S21' = S21 sqrt((1 - R1^2)(1 - R2^2)) / det(I - R S) for real
 *           impedances; held in its test to the way over Z parameters
 */
export function s21In(
  parameters: readonly Polar[],
  [one, two]: readonly [number, number],
  toOhm: number,
): number | null {
  if (parameters.length !== 4 || !(one > 0 && two > 0 && toOhm > 0))
    throw new RangeError(`${parameters.length} parameters in ${one}, ${two} and ${toOhm} ohm`);
  const [s11 = real(0), s12 = real(0), s21 = real(0), s22 = real(0)] = parameters.map(complexOf);
  const r1 = (toOhm - one) / (toOhm + one);
  const r2 = (toOhm - two) / (toOhm + two);
  const scaled = (by: number, value: Complex) => times(real(by), value);
  const determinant = minus(
    times(minus(real(1), scaled(r1, s11)), minus(real(1), scaled(r2, s22))),
    scaled(r1 * r2, times(s12, s21)),
  );
  const weight = Math.sqrt((1 - r1 * r1) * (1 - r2 * r2));
  const magnitude = (Math.hypot(s21.re, s21.im) * weight) / Math.hypot(determinant.re, determinant.im);
  return magnitude > 0 && Number.isFinite(magnitude) ? 20 * Math.log10(magnitude) : null;
}
