import type { Span } from './scale.ts';

/**
 * What of an axis is looked at, between the whole of it and the least that still says something. Pure: the hand that moves it is
 * in use-chart-hand.ts.
 */
export type AxisLimits = Readonly<{ whole: Span; least: number }>;

const widthOf = ({ low, high }: Span): number => high - low;

/** The span itself where it fits; else as near to it as the axis allows. */
export function held({ low, high }: Span, { whole, least }: AxisLimits): Span {
  const width = Math.min(widthOf(whole), Math.max(Math.min(least, widthOf(whole)), high - low));
  const middle = (low + high) / 2;
  const from = Math.min(whole.high - width, Math.max(whole.low, middle - width / 2));
  // Sums of fractions must not leave a sliver that looks like a view of its own.
  return isWhole({ low: from, high: from + width }, whole) ? whole : { low: from, high: from + width };
}

export const isWhole = (view: Span, whole: Span): boolean =>
  widthOf(whole) - widthOf(view) < widthOf(whole) * 1e-6;

/** Nearer by a factor over one, farther by one under it; what stands at `at` stays where it is. */
export function zoomed(view: Span, factor: number, at: number, limits: AxisLimits): Span {
  const { whole, least } = limits;
  const width = Math.min(widthOf(whole), Math.max(least, widthOf(view) / factor));
  const share = (at - view.low) / widthOf(view);
  const low = at - share * width;
  return held({ low, high: low + width }, limits);
}

/** Aside by a share of what is seen. */
export const moved = (view: Span, share: number, limits: AxisLimits): Span =>
  held({ low: view.low + share * widthOf(view), high: view.high + share * widthOf(view) }, limits);

/** As much as before, but with this place in it, and a little of what lies around. */
export function showing(view: Span, at: number, limits: AxisLimits): Span {
  const room = widthOf(view) * 0.08;
  if (at < view.low + room) return moved(view, (at - view.low - room) / widthOf(view), limits);
  if (at > view.high - room) return moved(view, (at - view.high + room) / widthOf(view), limits);
  return view;
}

/** A place on the axis that a finger holds: its value when the finger came, and the share of the plot where it is now. */
export type Grip = Readonly<{ value: number; share: number }>;

/** One finger moves the axis, two stretch it: each keeps what it took hold of. */
export function gripped(view: Span, [one, two]: readonly Grip[], limits: AxisLimits): Span {
  if (one === undefined) return view;
  const apart = two === undefined ? 0 : two.share - one.share;
  const width =
    two === undefined || Math.abs(apart) < 0.02 || (two.value - one.value) / apart <= 0
      ? widthOf(view)
      : Math.min(widthOf(limits.whole), Math.max(limits.least, (two.value - one.value) / apart));
  const low = one.value - one.share * width;
  return held({ low, high: low + width }, limits);
}

/** The nearest of some places in rising order; null where there is none. */
export function nearestStop(stops: readonly number[], wanted: number): number | null {
  let nearest: number | null = null;
  for (const stop of stops)
    if (nearest === null || Math.abs(stop - wanted) < Math.abs(nearest - wanted)) nearest = stop;
  return nearest;
}
