import fc from 'fast-check';
import loadHighs from 'highs';
import { describe, expect, it } from 'vitest';
import { leastWorst } from '../../../core/propose/least-worst.ts';

const n = 25;
const ones = new Float64Array(n).fill(1);
const place = Float64Array.from({ length: n }, (_, i) => i / (n - 1));
const bend = place.map((x) => Math.sqrt(x));
const number = (value: number) => (Math.abs(value) < 1e-12 ? '0' : value.toFixed(12));
const term = (factor: number, name: string) =>
  `${factor < 0 ? '-' : '+'} ${number(Math.abs(factor))} ${name}`;

const off = fc
  .array(fc.double({ min: -6, max: 6, noNaN: true }), { minLength: n, maxLength: n })
  .map((some) => Float64Array.from(some));
const range = fc
  .tuple(fc.constantFrom(0, -1, -2.5, -20), fc.constantFrom(0, 0.5, 3, 20))
  .map(([least, most]): [number, number] => [least, most]);

// HiGHS (npm highs), an independent solver of linear programmes.
describe('leastWorst', async () => {
  const highs = await loadHighs();
  const byHighs = (
    offDb: Float64Array,
    effects: readonly Float64Array[],
    ranges: readonly [number, number][],
  ) => {
    const rows = [...offDb].flatMap((value, i) =>
      [1, -1].map(
        (sign) =>
          `r${i}${sign > 0 ? 'a' : 'b'}: t ${effects.map((effect, k) => term(-sign * (effect[i] ?? 0), `c${k}`)).join(' ')} >= ${number(sign * value)}`,
      ),
    );
    const bounds = ranges.map(([least, most], k) => `${least} <= c${k} <= ${most}`);
    const text = ['Minimize', 'obj: t', 'Subject To', ...rows, 'Bounds', ...bounds, 't free', 'End'].join(
      '\n',
    );
    return highs.solve(text, { output_flag: false }).ObjectiveValue;
  };

  it.each([
    ['a gain', [ones]],
    ['a slope', [place]],
    ['a gain and a slope', [ones, place]],
    ['a gain, a slope and a bend', [ones, place, bend]],
  ])('%s: the optimum of HiGHS, within the ranges', (_what, effects) => {
    fc.assert(
      fc.property(off, fc.array(range, { minLength: 3, maxLength: 3 }), (offDb, some) => {
        const ranges = some.slice(0, effects.length);
        const found = leastWorst(offDb, effects, ranges);
        expect(Math.abs(found.worstDb - byHighs(offDb, effects, ranges))).toBeLessThan(1e-6);
        const left = offDb.map((value, i) =>
          effects.reduce((sum, effect, k) => sum + (found.byDb[k] ?? 0) * (effect[i] ?? 0), value),
        );
        expect(Math.max(...left.map(Math.abs))).toBeCloseTo(found.worstDb, 9);
        found.byDb.forEach((by, k) => {
          expect(by >= (ranges[k]?.[0] ?? 0) && by <= (ranges[k]?.[1] ?? 0)).toBe(true);
        });
      }),
      { numRuns: 60 },
    );
  });
});

it('leaves a line of nothing but level and tilt at nought', () => {
  const offDb = place.map((x) => 2 - 3 * x);
  const found = leastWorst(
    offDb,
    [ones, place],
    [
      [-10, 10],
      [-10, 10],
    ],
  );
  expect(found.worstDb).toBeCloseTo(0, 9);
  expect(found.byDb).toEqual([expect.closeTo(-2, 9), expect.closeTo(3, 9)]);
});
it('turns nothing where there is nothing to turn, or nothing to gain', () => {
  expect(leastWorst(Float64Array.of(1, -2), [], [])).toEqual({ byDb: [], worstDb: 2 });
  expect(
    leastWorst(
      new Float64Array(n),
      [ones, place],
      [
        [-1, 1],
        [-1, 1],
      ],
    ),
  ).toMatchObject({ worstDb: 0 });
});
it('throws for lengths that differ', () =>
  expect(() => leastWorst(Float64Array.of(1), [ones], [])).toThrow(RangeError));
