import fc from 'fast-check';
import { expect, it } from 'vitest';
import { SlopeCounts } from '../../../core/line/slope-counts.ts';

// Whole numbers, so that a slope compared with a count is never a matter of rounding.
const rows = fc.array(fc.tuple(fc.nat({ max: 30 }), fc.integer({ min: -40, max: 40 })), {
  minLength: 2,
  maxLength: 50,
});

it('counts what looking at every pair counts', () => {
  fc.assert(
    fc.property(rows, fc.integer({ min: -8, max: 8 }), (some, slope) => {
      const rising = some.toSorted((a, b) => a[0] - b[0]);
      const counts = new SlopeCounts(
        Float64Array.from(rising, ([x]) => x),
        Float64Array.from(rising, ([, y]) => y),
      );
      counts.countUpTo(slope);
      rising.forEach(([x, y], i) => {
        const others = rising.filter(([otherX]) => otherX !== x);
        expect(counts.pairs[i]).toBe(others.length);
        expect(counts.counts[i]).toBe(
          others.filter(([otherX, otherY]) => (otherY - y) / (otherX - x) <= slope).length,
        );
      });
    }),
  );
});
