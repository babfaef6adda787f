import fc from 'fast-check';
import { expect, it } from 'vitest';
import { sineSums } from '../../../core/fourier/sine-sums.ts';

const value = fc.double({ min: -50, max: 50, noNaN: true });
const row = fc.tuple(fc.double({ min: 5, max: 1218, noNaN: true }), value, value);

it('gives the plain sums, wherever the rows stand and whichever sines are asked for', () => {
  fc.assert(
    fc.property(
      fc.array(row, { minLength: 1, maxLength: 60 }),
      fc.double({ min: 0, max: 0.5, noNaN: true }),
      fc.double({ min: 1e-5, max: 0.02, noNaN: true }),
      fc.integer({ min: 1, max: 300 }),
      (rows, fromPerMhz, stepPerMhz, count) => {
        const mhz = rows.map(([f]) => f);
        const lists = [rows.map(([, one]) => one), rows.map(([, , other]) => other)];
        const found = sineSums(mhz, lists, { fromPerMhz, stepPerMhz, count });
        lists.forEach((list, at) => {
          const size = list.reduce((sum, one) => sum + Math.abs(one), 0) + 1e-300;
          for (let k = 0; k < count; k++) {
            const turn = (f: number) => 2 * Math.PI * (fromPerMhz + k * stepPerMhz) * f;
            const cosine = list.reduce((sum, one, i) => sum + one * Math.cos(turn(mhz[i] ?? 0)), 0);
            const sine = list.reduce((sum, one, i) => sum + one * Math.sin(turn(mhz[i] ?? 0)), 0);
            expect(Math.abs((found[at]?.cosine[k] ?? Number.NaN) - cosine) / size).toBeLessThan(1e-10);
            expect(Math.abs((found[at]?.sine[k] ?? Number.NaN) - sine) / size).toBeLessThan(1e-10);
          }
        });
      },
    ),
    { numRuns: 60 },
  );
});

it('throws where a list has another length or nothing is asked for', () => {
  const places = { fromPerMhz: 0.01, stepPerMhz: 0.001, count: 5 };
  expect(() => sineSums([54, 60], [[1]], places)).toThrow(RangeError);
  expect(() => sineSums([54], [[1]], { ...places, count: 0 })).toThrow(RangeError);
});
