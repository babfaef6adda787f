import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { allWithin, medianInPlace, medianOf, robustLine } from '../../../core/line/robust-line.ts';

describe('medianOf', () => {
  it('is the middle, or between the two in the middle', () => {
    expect(medianOf([9, 1, 5])).toBe(5);
    expect(medianOf([9, 1, 5, 6])).toBe(5.5);
    expect(medianOf([-2])).toBe(-2);
  });
  it('changes nothing and throws for nothing', () => {
    const values = [3, 1, 2];
    medianOf(values);
    expect(values).toEqual([3, 1, 2]);
    expect(() => medianOf([])).toThrow(RangeError);
  });
});

// Siegel 1982: the repeated median holds while fewer than half of the rows are wrong.
describe('robustLine', () => {
  const position = Array.from({ length: 41 }, (_, i) => i / 40);
  it('is the line itself where all agree', () => {
    const line = robustLine(
      position,
      position.map((x) => 36 + 10 * x),
    );
    expect(line.lowDbmv).toBeCloseTo(36, 9);
    expect(line.tiltDb).toBeCloseTo(10, 9);
  });
  it('is not pulled by 40 % of the rows lying 30 dB down', () => {
    const levels = position.map((x, i) => (i % 5 < 2 ? 6 : 36 + 10 * x));
    const line = robustLine(position, levels);
    expect(line.tiltDb).toBeCloseTo(10, 1);
    expect(line.lowDbmv).toBeCloseTo(36, 1);
  });
  it('takes repeated positions and many rows', () => {
    const many = Array.from({ length: 2000 }, (_, i) => Math.floor(i / 2) / 1000);
    const line = robustLine(
      many,
      many.map((x) => -3 + 4 * x),
    );
    expect(line.tiltDb).toBeCloseTo(4, 9);
  });
  it('throws where no two positions differ', () =>
    expect(() => robustLine([0.5, 0.5], [1, 2])).toThrow(RangeError));
});

/** Every pair of rows, as Siegel's paper has it; of an even number the lower one of the two in the middle. */
function everyPair(x: readonly number[], y: readonly number[]): number {
  const lowMedian = (values: number[]) => values.sort((a, b) => a - b)[Math.ceil(values.length / 2) - 1] ?? 0;
  return lowMedian(
    x.map((here, i) =>
      lowMedian(
        x.flatMap((there, j) => (there === here ? [] : [((y[j] ?? 0) - (y[i] ?? 0)) / (there - here)])),
      ),
    ),
  );
}
const places = fc.uniqueArray(fc.integer({ min: 0, max: 400 }), { minLength: 2, maxLength: 70 });
const levels = fc.infiniteStream(
  fc.oneof(
    fc.double({ min: -60, max: 60, noNaN: true }),
    fc.integer({ min: -200, max: 200 }).map((tenths) => tenths / 10),
  ),
);

describe('without looking at every pair', () => {
  it('finds the same slope as looking at every pair, ties and repeated positions too', () => {
    fc.assert(
      fc.property(places, levels, fc.boolean(), (some, stream, twins) => {
        const rising = (twins ? [...some, ...some.slice(0, 5)] : some).toSorted((a, b) => a - b);
        const x = rising.map((place) => place / 400);
        const y = x.map(() => stream.next().value ?? 0);
        const slope = everyPair(x, y);
        expect(Math.abs(robustLine(x, y).tiltDb - slope)).toBeLessThanOrEqual(1e-8 + 1e-12 * Math.abs(slope));
      }),
      { numRuns: 400 },
    );
  });
  it('finds it in a whole sweep in tenths of a dB, however many carriers are missing, and in one made to mislead', () => {
    const rowsOf = fc.record({
      n: fc.integer({ min: 60, max: 158 }),
      tiltDb: fc.integer({ min: -300, max: 300 }).map((tenths) => tenths / 10),
      noise: fc.infiniteStream(fc.integer({ min: -9, max: 9 })),
      gone: fc.infiniteStream(fc.integer({ min: 0, max: 99 })),
      missing: fc.integer({ min: 0, max: 60 }),
      power: fc.constantFrom(1, 0.5, 4),
    });
    fc.assert(
      fc.property(rowsOf, ({ n, tiltDb, noise, gone, missing, power }) => {
        const x = Array.from({ length: n }, (_, i) => (i / (n - 1)) ** power);
        const y = x.map((place) =>
          (gone.next().value ?? 0) < missing
            ? -20
            : Math.round(10 * (36 + tiltDb * place)) / 10 + (noise.next().value ?? 0) / 10,
        );
        const slope = everyPair(x, y);
        expect(Math.abs(robustLine(x, y).tiltDb - slope)).toBeLessThanOrEqual(1e-8 + 1e-11 * Math.abs(slope));
      }),
      { numRuns: 150 },
    );
  });
  it('says that all lie within a limit only where they do, by counting or because most rows are quiet', () => {
    const off = (most: number) => fc.double({ min: -most, max: most, noNaN: true });
    const rowsOf = fc.double({ min: 0.05, max: 1, noNaN: true }).chain((share) => {
      const quiet = fc.tuple(fc.nat(60), off(3 * share));
      const far = fc.tuple(fc.nat(60), off(9 * share));
      return fc.array(fc.oneof({ weight: 5, arbitrary: quiet }, { weight: 3, arbitrary: far }), {
        minLength: 3,
        maxLength: 60,
      });
    });
    let proven = 0;
    fc.assert(
      fc.property(rowsOf, off(30), (rows, tiltDb) => {
        // Some stand at one place, and some places have none.
        const rising = [[0, 0] as const, ...rows, [60, 0] as const].sort((a, b) => a[0] - b[0]);
        const x = Float64Array.from(rising, ([at]) => at / 60);
        const y = Float64Array.from(rising, ([at, offDb]) => 36 + (tiltDb * at) / 60 + offDb);
        if (!allWithin(x, y, 8)) return;
        proven++;
        const line = robustLine(x, y);
        y.forEach((level, i) => {
          expect(Math.abs(level - line.lowDbmv - line.tiltDb * (x[i] ?? 0))).toBeLessThan(8);
        });
      }),
      { numRuns: 3000 },
    );
    expect(proven).toBeGreaterThan(300);
  });
});

// Siegel 1982: breakdown point floor(n / 2) of n rows. Wrong rows at their worst: any level, all on one side, in one place.
describe('breakdown point', () => {
  const sizes = [5, 20, 41, 158];
  const goodDbmv = (x: number, i: number) => 36 + 10 * x + 0.3 * Math.sin(i);
  const wrongPlaces: Readonly<Record<string, (i: number, wrong: number, n: number) => boolean>> = {
    'at the low end': (i, wrong) => i < wrong,
    'at the high end': (i, wrong, n) => i >= n - wrong,
    'every second one': (i, wrong, n) => i % 2 === 1 && i < 2 * wrong && n > 0,
    'in the middle': (i, wrong, n) => Math.abs(i - (n - 1) / 2) < wrong / 2,
  };
  const farLevels = [-60, 1e6, -1e9];
  const cases = sizes.flatMap((n) => Object.keys(wrongPlaces).map((where) => [n, where] as const));
  it.each(cases)('%d rows: one fewer than half wrong %s can not carry it off', (n, where) => {
    const wrong = Math.floor(n / 2) - 1;
    const x = Array.from({ length: n }, (_, i) => i / (n - 1));
    const isWrong = (i: number) => wrongPlaces[where]?.(i, wrong, n) === true;
    // What the good rows say among themselves, at its steepest: the line may say no more, however far off the others are.
    const good = x.map((_, i) => i).filter((i) => !isWrong(i));
    const slopes = good.flatMap((i) =>
      good
        .filter((j) => j !== i)
        .map((j) => (goodDbmv(x[j] ?? 0, j) - goodDbmv(x[i] ?? 0, i)) / ((x[j] ?? 0) - (x[i] ?? 0))),
    );
    const steepestDb = Math.max(...slopes.map(Math.abs));
    for (const far of farLevels) {
      const y = x.map((place, i) => (isWrong(i) ? far * (1 + (i % 3) / 10) : goodDbmv(place, i)));
      const { lowDbmv, tiltDb } = robustLine(x, y);
      expect(Math.abs(tiltDb)).toBeLessThanOrEqual(steepestDb);
      expect(Math.abs(lowDbmv)).toBeLessThanOrEqual(47 + steepestDb);
    }
  });
  it('is not more than half: with most rows on another line, it is that line', () => {
    const x = Array.from({ length: 41 }, (_, i) => i / 40);
    expect(
      robustLine(
        x,
        x.map((place, i) => (i < 23 ? -60 : 36 + 10 * place)),
      ).tiltDb,
    ).toBeCloseTo(0, 6);
  });
});

it('medianInPlace is medianOf', () => expect(medianInPlace(Float64Array.of(9, 1, 5, 6))).toBe(5.5));
