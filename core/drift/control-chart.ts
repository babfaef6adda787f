/** d2 and D4 of ranges of two values. */
const D2 = 1.128;
const D4 = 3.267;

/** With fewer values the limits move with every one that comes; they are drawn all the same, and called provisional. */
export const FIRM_FROM = 20;

/** A Shewhart chart of single values and the moving ranges between neighbours, all in the unit of the values. */
export type ControlChart = Readonly<{
  center: number;
  /** Standard deviation as the moving ranges tell it. */
  sigma: number;
  lower: number;
  upper: number;
  /** One fewer than there are values. */
  ranges: readonly number[];
  meanRange: number;
  rangeUpper: number;
  /** True below FIRM_FROM values. */
  isProvisional: boolean;
}>;

/**
 * Center line and limits of an individuals and moving-range chart: mean and 3 standard deviations, which are the mean moving
 * range by 1.128, so 2.66 mean ranges either way; the range's own upper limit is 3.267 mean ranges.
 * @param values  in the order of time, finite, of one unit
 * @returns  the chart, or null below three values
 * @throws   RangeError when a value is none, or too large to be added up
 * @source   W. A. Shewhart's charts as in NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2; that limits from fewer
 *           than 20 values are provisional is common practice, no published source
 */
export function controlChart(values: readonly number[]): ControlChart | null {
  if (values.length < 3) return null;
  const center = values.reduce((sum, value) => sum + value, 0) / values.length;
  const ranges = values.slice(1).map((value, i) => Math.abs(value - (values[i] ?? value)));
  const meanRange = ranges.reduce((sum, range) => sum + range, 0) / ranges.length;
  const sigma = meanRange / D2;
  if (!Number.isFinite(center) || !Number.isFinite(3.3 * meanRange) || !Number.isFinite(center + 3 * sigma))
    throw new RangeError('a value of a control chart is no number');
  return {
    center,
    sigma,
    lower: center - 3 * sigma,
    upper: center + 3 * sigma,
    ranges,
    meanRange,
    rangeUpper: D4 * meanRange,
    isProvisional: values.length < FIRM_FROM,
  };
}
