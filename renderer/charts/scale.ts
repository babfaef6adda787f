/** Where things stand in a chart, in CSS pixels, and the round numbers at its axes. Display only: no level is made here. */
export type Span = Readonly<{ low: number; high: number }>;
export type PlotBox = Readonly<{ left: number; right: number; top: number; bottom: number }>;

export const AXIS_WIDTH = 52;
export const LABEL_WIDTH = 140;
export const AXIS_HEIGHT = 28;
const STRIP_HEIGHT = 104;
export const TOP_SPACE = 26;
/** Deviations are shown to this side of the tolerance before a bar is cut off. */
const STRIP_REACH = 2.4;

/** The levels that a chart must hold, widened to even decibels and never flatter than 12 dB, so that noise looks like noise. */
export function levelSpan(levelsDbmv: Iterable<number>): Span {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const value of levelsDbmv) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  if (low > high) return { low: 30, high: 50 };
  const span = { low: Math.floor((low - 0.5) / 2) * 2, high: Math.ceil((high + 0.5) / 2) * 2 };
  const missing = 12 - (span.high - span.low);
  if (missing <= 0) return span;
  const below = Math.ceil(missing / 4) * 2;
  return { low: span.low - below, high: span.high + Math.max(0, missing - below) };
}

/** Round numbers inside a span, as many as there is room for. */
export function ticksOf(span: Span, wanted: number): readonly number[] {
  const steps = [0.5, 1, 2, 4, 5, 10, 20, 25, 50, 100, 200, 250, 500, 1000];
  const step = steps.find((size) => (span.high - span.low) / size <= wanted) ?? 1000;
  const ticks: number[] = [];
  for (let at = Math.ceil(span.low / step) * step; at <= span.high + 1e-9; at += step) ticks.push(at);
  return ticks;
}

/** The strip under the level chart: deviations and the frequency axis, or only the axis where no design is. */
export const stripHeight = (toleranceDb: number | null): number =>
  toleranceDb === null ? AXIS_HEIGHT : STRIP_HEIGHT;

/** The plot of the level chart inside its box; a drawing without names at its right leaves less room for them. */
export const levelPlot = (width: number, height: number, labelWidth = LABEL_WIDTH): PlotBox => ({
  left: AXIS_WIDTH,
  right: Math.max(AXIS_WIDTH + 1, width - labelWidth),
  top: TOP_SPACE,
  bottom: Math.max(TOP_SPACE + 1, height - 6),
});

/** Room over the strip's plot for the names of the kinds of signal. */
export const STRIP_WORDS = 18;

/** The strip of deviations shares left and right with the level chart above it; names of signals take their row of it. */
export const stripPlot = (width: number, hasWords = false, labelWidth = LABEL_WIDTH): PlotBox => ({
  left: AXIS_WIDTH,
  right: Math.max(AXIS_WIDTH + 1, width - labelWidth),
  top: hasWords ? STRIP_WORDS : 2,
  bottom: STRIP_HEIGHT - AXIS_HEIGHT,
});

export const stripSpan = (toleranceDb: number, worstDb: number): Span => {
  const reach = Math.max(toleranceDb * STRIP_REACH, Math.min(Math.abs(worstDb), toleranceDb * 6));
  return { low: -reach, high: reach };
};

export const xAt = (plot: PlotBox, span: Span, frequencyMhz: number): number =>
  plot.left + ((frequencyMhz - span.low) / (span.high - span.low)) * (plot.right - plot.left);

/** A place as a share of the plot: 0 at its left end, 1 at its right. */
export const shareOf = (plot: PlotBox, x: number): number => (x - plot.left) / (plot.right - plot.left);

export const yAt = (plot: PlotBox, span: Span, value: number): number =>
  plot.bottom - ((value - span.low) / (span.high - span.low)) * (plot.bottom - plot.top);

export type Label = Readonly<{ key: string; text: string; x: number; y: number }>;

/** Moves labels at the right edge apart without changing their order, and keeps them inside the plot. */
export function apart(labels: readonly Label[], gap: number, plot: PlotBox): readonly Label[] {
  const sorted = [...labels].sort((a, b) => a.y - b.y);
  const placed: Label[] = [];
  for (const label of sorted) {
    const previous = placed.at(-1);
    const least = previous === undefined ? plot.top : previous.y + gap;
    placed.push({ ...label, y: Math.max(label.y, least) });
  }
  const overflow = (placed.at(-1)?.y ?? 0) - plot.bottom;
  if (overflow <= 0) return placed;
  let limit = plot.bottom;
  return placed
    .toReversed()
    .map((label) => {
      const y = Math.min(label.y, limit);
      limit = y - gap;
      return { ...label, y };
    })
    .toReversed();
}

/** As many letters fit in beside an axis; a longer unit begins at the picture's edge instead of being cut off there. */
const LETTERS_BESIDE = 5;

/** Where the unit of a vertical axis stands: it ends at x with the numbers, or begins at the edge. */
export const axisUnitAt = (unit: string, x: number): Readonly<{ x: number; anchor: 'end' | 'start' }> =>
  unit.length <= LETTERS_BESIDE ? { x, anchor: 'end' } : { x: 1, anchor: 'start' };
