/** A span of levels, deviations or frequencies; the unit is that of what is drawn. */
export type Span = Readonly<{ low: number; high: number }>;

const STEPS = [0.5, 1, 2, 5, 10, 20, 25, 50, 100, 200, 250, 500];

/**
 * Round numbers inside a span.
 * @param span    low below high
 * @param wanted  at most about so many
 * @returns  rising; empty for a span that is none
 * @source   common practice, no published source
 */
export function ticksOf(span: Span, wanted: number): number[] {
  const width = span.high - span.low;
  if (!(width > 0) || !Number.isFinite(width)) return [];
  const step = STEPS.find((size) => width / size <= wanted) ?? width;
  const first = Math.ceil(span.low / step - 1e-9);
  const last = Math.floor(span.high / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * step);
}

/**
 * The levels that a chart must hold, widened to even decibels and never flatter than 12 dB, so that noise looks like noise.
 * @param levelsDbmv  dBmV each
 * @returns  dBmV; 30 to 50 where there is none
 * @source   common practice, no published source
 */
export function levelSpan(levelsDbmv: readonly number[]): Span {
  if (levelsDbmv.length === 0) return { low: 30, high: 50 };
  const least = levelsDbmv.reduce((a, b) => Math.min(a, b));
  const most = levelsDbmv.reduce((a, b) => Math.max(a, b));
  const low = Math.floor((least - 0.5) / 2) * 2;
  const high = Math.ceil((most + 0.5) / 2) * 2;
  const missing = 12 - (high - low);
  if (missing <= 0) return { low, high };
  const below = Math.ceil(missing / 4) * 2;
  return { low: low - below, high: high + Math.max(0, missing - below) };
}

/**
 * Where a value stands between two ends of an axis.
 * @param span  of the axis
 * @param fromPt  where its low end stands, points
 * @param toPt    where its high end stands, points
 * @returns  points; the middle where the span is none
 * @source   a straight line
 */
export const placeOn = (span: Span, value: number, fromPt: number, toPt: number): number =>
  span.high > span.low
    ? fromPt + ((value - span.low) / (span.high - span.low)) * (toPt - fromPt)
    : (fromPt + toPt) / 2;

/**
 * Moves labels apart without changing their order, and keeps them above a bottom.
 * @param yPt       where each wants to stand, points
 * @param gapPt     least distance
 * @param bottomPt  none stands lower
 * @returns  as many, in the order given
 * @source   common practice, no published source
 */
export function apart(yPt: readonly number[], gapPt: number, bottomPt: number): number[] {
  const order = yPt.map((y, i) => ({ y, i })).sort((a, b) => a.y - b.y);
  const placed: number[] = [];
  for (const { y } of order) placed.push(Math.max(y, (placed.at(-1) ?? Number.NEGATIVE_INFINITY) + gapPt));
  for (let k = placed.length - 1, limit = bottomPt; k >= 0; k--) {
    placed[k] = Math.min(placed[k] ?? limit, limit);
    limit = (placed[k] ?? limit) - gapPt;
  }
  const out = [...yPt];
  order.forEach(({ i }, k) => {
    out[i] = placed[k] ?? 0;
  });
  return out;
}
