import fc from 'fast-check';
import { expect, it } from 'vitest';
import { transform } from '../../../core/fourier/transform.ts';

/** By the definition, one sum for each. */
function bySums(re: readonly number[], im: readonly number[]) {
  const n = re.length;
  return re.map((_, k) =>
    re.reduce(
      (sum, x, j) => {
        const angle = (2 * Math.PI * ((j * k) % n)) / n;
        const y = im[j] ?? 0;
        return {
          re: sum.re + x * Math.cos(angle) - y * Math.sin(angle),
          im: sum.im + x * Math.sin(angle) + y * Math.cos(angle),
        };
      },
      { re: 0, im: 0 },
    ),
  );
}

// By hand: 1, 2, 3, 4 give 10, -2 - 2i, -2, -2 + 2i with the positive exponent.
it('gives what was worked out by hand', () => {
  const [re, im] = [Float64Array.from([1, 2, 3, 4]), new Float64Array(4)];
  transform(re, im);
  const about = (parts: Float64Array) => Array.from(parts, (part) => Math.round(part * 1e12) / 1e12 + 0);
  expect(about(re)).toEqual([10, -2, -2, -2]);
  expect(about(im)).toEqual([0, -2, 0, 2]);
});

it('gives the sums of the definition', () => {
  const part = fc.double({ min: -10, max: 10, noNaN: true });
  const parts = fc
    .integer({ min: 0, max: 7 })
    .chain((bits) => fc.array(fc.tuple(part, part), { minLength: 2 ** bits, maxLength: 2 ** bits }));
  fc.assert(
    fc.property(parts, (pairs) => {
      const [re, im] = [pairs.map(([x]) => x), pairs.map(([, y]) => y)];
      const wanted = bySums(re, im);
      const [gotRe, gotIm] = [Float64Array.from(re), Float64Array.from(im)];
      transform(gotRe, gotIm);
      wanted.forEach((one, k) => {
        expect(Math.abs((gotRe[k] ?? Number.NaN) - one.re)).toBeLessThan(1e-10);
        expect(Math.abs((gotIm[k] ?? Number.NaN) - one.im)).toBeLessThan(1e-10);
      });
    }),
  );
});

it('throws for what is no power of two', () => {
  for (const n of [0, 3, 12])
    expect(() => transform(new Float64Array(n), new Float64Array(n))).toThrow(RangeError);
  expect(() => transform(new Float64Array(4), new Float64Array(2))).toThrow(RangeError);
});
