import fc from 'fast-check';
import { expect, it } from 'vitest';
import { traceSpans } from '../../../core/meters/trace-spans.ts';

it('takes one span for a plan of equal steps', () => {
  const plan = Array.from({ length: 158 }, (_, i) => 57e6 + i * 6e6).reverse();
  const spans = traceSpans(plan, 2, 1001, 100_000);
  expect(spans).toHaveLength(1);
  expect(spans[0]).toMatchObject({ startHz: 57e6, stopHz: 999e6, points: 158 });
});
it('gives a lone frequency a short span of its own', () => {
  expect(traceSpans([711e6], 2, 1001, 100_000)).toEqual([
    { startHz: 711e6, stopHz: 711.1e6, points: 2, wanted: [{ hz: 711e6, point: 0 }] },
  ]);
});
it('has none for no frequency, and throws at limits that allow no trace', () => {
  expect(traceSpans([], 2, 1001, 100_000)).toEqual([]);
  expect(() => traceSpans([1e6], 1, 10, 1)).toThrow(RangeError);
  expect(() => traceSpans([1e6], 5, 4, 1)).toThrow(RangeError);
});
it('puts every frequency on a point of one span, within the limits of the meter', () => {
  const hertz = fc.array(fc.integer({ min: 5_000_000, max: 1_218_000_000 }), { minLength: 1, maxLength: 40 });
  const rounded = fc
    .integer({ min: 1, max: 6 })
    .chain((step) =>
      hertz.map((list) => list.map((hz) => Math.max(1, Math.round(hz / (step * 250_000))) * step * 250_000)),
    );
  fc.assert(
    fc.property(fc.oneof(hertz, rounded), fc.integer({ min: 2, max: 1001 }), (list, most) => {
      const spans = traceSpans(list, 2, most, 100_000);
      const found = spans.flatMap(({ startHz, stopHz, points, wanted }) => {
        expect(points).toBeGreaterThanOrEqual(2);
        expect(points).toBeLessThanOrEqual(most);
        const stepHz = (stopHz - startHz) / (points - 1);
        for (const { hz, point } of wanted)
          expect(Math.abs(startHz + point * stepHz - hz)).toBeLessThan(0.01);
        return wanted.map(({ hz }) => hz);
      });
      expect(found).toEqual([...new Set(list)].sort((a, b) => a - b));
    }),
    { seed: 7, numRuns: 300 },
  );
});
