import fc from 'fast-check';
import { expect, it } from 'vitest';
import { exactBest } from '../../../core/inspect/exact-best.ts';

const gain = fc.double({ min: 0, max: 10, noNaN: true });

it('is the first of the plainly best, whatever the quick sums leave in doubt, and asks few of them', () => {
  fc.assert(
    fc.property(
      fc.array(
        fc.record({
          gainDb2: fc.oneof(gain, fc.constant(9)),
          off: fc.double({ min: -1, max: 1, noNaN: true }),
        }),
        { minLength: 1, maxLength: 80 },
      ),
      fc.integer({ min: 0, max: 200 }),
      (rows, doubted) => {
        const about = Float64Array.from(rows, ({ gainDb2, off }, i) =>
          i === doubted ? Number.NaN : Math.max(0, gainDb2 + off * 4e-7 * gainDb2),
        );
        const asked: number[] = [];
        const found = exactBest({ squaresDb2: 50 }, about, (at) => {
          asked.push(at);
          return { gainDb2: rows[at]?.gainDb2 ?? 0, amplitudeDb: at };
        });
        const best = Math.max(...rows.map(({ gainDb2 }) => gainDb2));
        if (best < 4e-5) return;
        expect(found?.explained.gainDb2).toBe(best);
        expect(found?.at).toBe(rows.findIndex(({ gainDb2 }) => gainDb2 === best));
        for (const at of asked) expect(at === doubted || (rows[at]?.gainDb2 ?? 0) > best - 1e-4).toBe(true);
      },
    ),
  );
});

it('is none where nothing explains enough to be believed', () => {
  const never = () => {
    throw new Error('asked');
  };
  expect(exactBest({ squaresDb2: 1 }, Float64Array.from([1e-9, 0]), never)).toBeNull();
  expect(exactBest({ squaresDb2: 1 }, new Float64Array(0), never)).toBeNull();
});
