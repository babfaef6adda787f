import type { PlotBox, Span } from './scale.ts';

/** Where the two drawings of a season stand: levels above, the control's position under them, one axis of temperature. */
export const SEASON_LEFT = 52;
export const SEASON_RIGHT = 112;
const TOP = 30;
const BETWEEN = 34;
const AXIS = 46;
/** The share of the height that the levels get. */
const LEVEL_SHARE = 0.62;

export type SeasonPlots = Readonly<{
  levels: PlotBox;
  control: PlotBox;
  levelHeight: number;
  controlHeight: number;
}>;

export function seasonPlots(width: number, height: number): SeasonPlots {
  const levelHeight = Math.round(height * LEVEL_SHARE);
  const right = Math.max(SEASON_LEFT + 1, width - SEASON_RIGHT);
  return {
    levelHeight,
    controlHeight: height - levelHeight,
    levels: { left: SEASON_LEFT, right, top: TOP, bottom: levelHeight - 10 },
    control: { left: SEASON_LEFT, right, top: levelHeight + BETWEEN, bottom: height - AXIS },
  };
}

/** Round temperatures for the axis, as many as there is room for. */
export function temperatureTicks(span: Span): readonly number[] {
  const step = [1, 2, 5, 10, 20].find((size) => (span.high - span.low) / size <= 9) ?? 20;
  const ticks: number[] = [];
  for (let at = Math.ceil(span.low / step) * step; at <= span.high; at += step) ticks.push(at);
  return ticks;
}

/** A marker's words need so much room beside its line. */
const WORDS_ROOM = 190;
const ASIDE = 8;

/** Where a marker's words stand: beside its line, on the side that has more room; over all lines, so that none crosses them. */
export function markerPlace(
  { levels, control }: SeasonPlots,
  x: number,
  where: 'top' | 'foot' | 'control',
): Readonly<{ x: number; y: number; leftward: boolean }> {
  const leftward = x > levels.right - WORDS_ROOM;
  const y = { top: levels.top + 18, foot: levels.bottom - 10, control: control.bottom - 10 }[where];
  return { x: x + (leftward ? -ASIDE : ASIDE), y, leftward };
}
