/** A point of a curve: where, and how much there. */
export type Point = readonly [at: number, value: number];

const between = (left: Point, right: Point, at: number): number =>
  left[1] + ((right[1] - left[1]) * (at - left[0])) / (right[0] - left[0]);

/**
 * Straight lines between points, held flat beyond the first and the last.
 * @param points  at least one, in rising order of their first number; units are the caller's
 * @param at      where the value is wanted, in the unit of the points' first numbers
 * @returns  the value there; where two points share one place, the earlier one's
 * @throws   RangeError when there is no point
 * @source   contract, section 2, "straight lines between points"; held flat beyond the ends: common practice, no published source
 */
export function flatBeyondEnds(points: readonly Point[], at: number): number {
  const first = points[0];
  if (first === undefined) throw new RangeError('no points to interpolate');
  if (at <= first[0]) return first[1];
  let left = first;
  for (const right of points) {
    if (at <= right[0]) return right[0] === left[0] ? left[1] : between(left, right, at);
    left = right;
  }
  return left[1];
}

/**
 * The straight line through the two points around a place; beyond the ends, through the two nearest.
 * @param points  in rising order of their first number, no two at one place; units are the caller's
 * @param at      where the value is wanted
 * @returns  the value and whether the place lies outside the points; null when one point can't answer for another place
 * @source   contract, section 3, "on the straight line between the two nearest rows"; beyond the ends: common practice, no published source
 */
export function onNearestLine(
  points: readonly Point[],
  at: number,
): Readonly<{ value: number; outside: boolean }> | null {
  const exact = points.find((point) => point[0] === at);
  if (exact !== undefined) return { value: exact[1], outside: false };
  const above = points.findIndex((point) => point[0] > at);
  const outside = above <= 0;
  const right = above === -1 ? points.length - 1 : Math.max(above, 1);
  const from = points[right - 1];
  const to = points[right];
  if (from === undefined || to === undefined) return null;
  return { value: between(from, to, at), outside };
}
