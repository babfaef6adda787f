import type { PlotBox } from './scale.ts';

const LEFT = 52;
const RIGHT = 132;
const TOP = 26;
const AXIS = 30;
const RANGE_SHARE = 0.24;
const GAP = 26;

export type ControlPlots = Readonly<{ values: PlotBox; ranges: PlotBox | null }>;

/** Where values and, with a chart, their moving ranges are drawn; null where there is no room. */
export function controlPlots(width: number, height: number, withRanges: boolean): ControlPlots | null {
  if (width <= LEFT + RIGHT || height <= 120) return null;
  const right = width - RIGHT;
  const bottom = height - AXIS;
  if (!withRanges) return { values: { left: LEFT, right, top: TOP, bottom }, ranges: null };
  const middle = bottom - Math.round(bottom * RANGE_SHARE) - GAP;
  return {
    values: { left: LEFT, right, top: TOP, bottom: middle },
    ranges: { left: LEFT, right, top: middle + GAP, bottom },
  };
}
