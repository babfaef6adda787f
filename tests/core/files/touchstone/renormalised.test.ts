import { expect, it } from 'vitest';
import { s21In } from '../../../../core/files/touchstone/renormalised.ts';

type C = readonly [number, number];
const plus = ([a, b]: C, [c, d]: C): C => [a + c, b + d];
const by = ([a, b]: C, [c, d]: C): C => [a * c - b * d, a * d + b * c];
const over = (a: C, [c, d]: C): C => by(a, [c / (c * c + d * d), -d / (c * c + d * d)]);
const neg = ([a, b]: C): C => [-a, -b];
type M = readonly [C, C, C, C];
const one: M = [
  [1, 0],
  [0, 0],
  [0, 0],
  [1, 0],
];
const sum = (a: M, b: M): M => [plus(a[0], b[0]), plus(a[1], b[1]), plus(a[2], b[2]), plus(a[3], b[3])];
const minus = (a: M): M => [neg(a[0]), neg(a[1]), neg(a[2]), neg(a[3])];
const product = (a: M, b: M): M => [
  plus(by(a[0], b[0]), by(a[1], b[2])),
  plus(by(a[0], b[1]), by(a[1], b[3])),
  plus(by(a[2], b[0]), by(a[3], b[2])),
  plus(by(a[2], b[1]), by(a[3], b[3])),
];
const inverse = ([a, b, c, d]: M): M => {
  const det = plus(by(a, d), neg(by(b, c)));
  return [over(d, det), over(neg(b), det), over(neg(c), det), over(a, det)];
};
const diagonal = (a: number, b: number): M => [
  [a, 0],
  [0, 0],
  [0, 0],
  [b, 0],
];
/** S to Z in one pair of impedances and back to S in another: Pozar, "Microwave Engineering", section 4.3. */
const overZ = (s: M, ohm: readonly [number, number], toOhm: number): M => {
  const root = diagonal(Math.sqrt(ohm[0]), Math.sqrt(ohm[1]));
  const z = product(product(root, product(sum(one, s), inverse(sum(one, minus(s))))), root);
  const normal = product(
    product(diagonal(toOhm ** -0.5, toOhm ** -0.5), z),
    diagonal(toOhm ** -0.5, toOhm ** -0.5),
  );
  return product(sum(normal, minus(one)), inverse(sum(normal, one)));
};
const polar = ([re, im]: C) => ({
  db: re === 0 && im === 0 ? null : 20 * Math.log10(Math.hypot(re, im)),
  degrees: (Math.atan2(im, re) * 180) / Math.PI,
});
const db = (value: number) => 20 * Math.log10(value);

// A resistance R in series between lines of Z: S11 = R/(R + 2Z), S21 = 2Z/(R + 2Z) (Pozar, table 4.1 by ABCD).
it.each([75, 150, 10])('is exact for %d ohm in series', (ohm) => {
  const inOhm = (z: number) => {
    const [s11, s21]: [C, C] = [
      [ohm / (ohm + 2 * z), 0],
      [(2 * z) / (ohm + 2 * z), 0],
    ];
    return [s11, s21, s21, s11].map(polar);
  };
  expect(s21In(inOhm(50), [50, 50], 75)).toBeCloseTo(db(150 / (ohm + 150)), 12);
  expect(s21In(inOhm(75), [75, 75], 75)).toBeCloseTo(db(150 / (ohm + 150)), 12);
});

it('agrees with the way over Z parameters for any two-port, also between unlike ports', () => {
  let seed = 7;
  const chance = () => {
    seed = (seed * 48271) % 2147483647;
    return seed / 2147483647 - 0.5;
  };
  for (let i = 0; i < 200; i++) {
    const s: M = [
      [chance(), chance()],
      [chance(), chance()],
      [chance(), chance()],
      [chance(), chance()],
    ];
    const ohm: [number, number] = i % 2 === 0 ? [50, 50] : [50, 60];
    const [re, im] = overZ(s, ohm, 75)[2];
    expect(s21In(s.map(polar), ohm, 75)).toBeCloseTo(db(Math.hypot(re, im)), 9);
  }
});

it('has no answer where nothing passes, and takes no other number of parameters', () => {
  const nothing = { db: null, degrees: 0 };
  expect(s21In([nothing, nothing, nothing, nothing], [50, 50], 75)).toBeNull();
  expect(() => s21In([nothing], [50, 50], 75)).toThrow(RangeError);
});
