import { describe, expect, it } from 'vitest';
import { flatBeyondEnds, onNearestLine, type Point } from '../../core/interpolate.ts';

const points: Point[] = [
  [54, 7],
  [254, 3],
  [870, 1],
];

describe('flatBeyondEnds', () => {
  it.each([
    [54, 7],
    [154, 5],
    [254, 3],
    [562, 2],
    [870, 1],
    [5, 7],
    [1218, 1],
  ])('at %d is %d', (at, wanted) => expect(flatBeyondEnds(points, at)).toBeCloseTo(wanted, 12));

  it('takes one point for every place', () => expect(flatBeyondEnds([[100, 4]], 900)).toBe(4));
  it('gives a number where two points share a place', () =>
    expect(
      flatBeyondEnds(
        [
          [100, 4],
          [100, 6],
          [200, 6],
        ],
        100,
      ),
    ).toBe(4));
  it('throws without points', () => expect(() => flatBeyondEnds([], 100)).toThrow(RangeError));
});

describe('onNearestLine', () => {
  it('lies between the two points around the place', () =>
    expect(onNearestLine(points, 562)).toEqual({ value: 2, outside: false }));
  it('is a point itself where there is one', () =>
    expect(onNearestLine(points, 870)).toEqual({ value: 1, outside: false }));
  it('goes on through the two nearest below and above, and says so', () => {
    expect(onNearestLine(points, 4)).toEqual({ value: 8, outside: true });
    expect(onNearestLine(points, 1178)).toEqual({ value: 0, outside: true });
  });
  it('can not answer from one point for another place', () => {
    expect(onNearestLine([[100, 4]], 101)).toBeNull();
    expect(onNearestLine([[100, 4]], 100)).toEqual({ value: 4, outside: false });
    expect(onNearestLine([], 100)).toBeNull();
  });
});
