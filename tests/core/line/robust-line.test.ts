import { describe, expect, it } from 'vitest';
import { medianOf, robustLine } from '../../../core/line/robust-line.ts';

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
