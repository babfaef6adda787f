import type { PluggedIn } from '../files/station.ts';
import { figureDb, followed, type SweepFigures } from './figures.ts';

export type PartChange = Readonly<{ position: string; fromDb: number; toDb: number }>;

/** Why a new stretch begins: what is known to have changed is no drift. */
export type SegmentCause =
  | Readonly<{ cause: 'first' }>
  | Readonly<{ cause: 'design' }>
  | Readonly<{ cause: 'parts'; changes: readonly PartChange[] }>
  | Readonly<{ cause: 'adjusted' }>;

export type Segment = Readonly<{
  begins: SegmentCause;
  /** In the order of time; at most one a visit. */
  points: readonly SweepFigures[];
}>;

/** Two sweeps of one visit farther apart than this were not read of the same thing: something was turned or mended. */
export const ADJUSTED_DB = 0.25;

const partChanges = (from: PluggedIn, to: PluggedIn): readonly PartChange[] =>
  [...new Set([...Object.keys(from), ...Object.keys(to)])].sort().flatMap((position) => {
    const fromDb = from[position] ?? 0;
    const toDb = to[position] ?? 0;
    return fromDb === toDb ? [] : [{ position, fromDb, toDb }];
  });

function causeOf(before: SweepFigures, after: SweepFigures): SegmentCause | null {
  if (before.revision !== after.revision) return { cause: 'design' };
  const changes = partChanges(before.pluggedIn, after.pluggedIn);
  if (changes.length > 0) return { cause: 'parts', changes };
  const oneVisit = before.visitId === after.visitId && after.purpose === 'as-left';
  const moved = followed.some((of) => Math.abs(figureDb(after, of) - figureDb(before, of)) > ADJUSTED_DB);
  return oneVisit && moved ? { cause: 'adjusted' } : null;
}

/**
 * Cuts a port's sweeps into stretches in which nothing is known to have changed: a part exchanged, a new design, or an as-left
 * sweep that lies elsewhere than the as-found sweep of the same visit begins a new one. Of several sweeps of a visit in
 * one stretch the last counts: read minutes apart, they say nothing about months.
 * @param points  complete sweeps of one port in the order of time
 * @returns  at least one stretch where there is a sweep; each with one point a visit
 * @source   assignable causes are taken out of a control chart's baseline: NIST/SEMATECH e-Handbook of Statistical Methods,
 *           6.3.2; 0.25 dB as for core/propose/held-against.ts, common practice, no published source
 */
export function segmentsOf(points: readonly SweepFigures[]): readonly Segment[] {
  const segments: { begins: SegmentCause; points: SweepFigures[] }[] = [];
  let before: SweepFigures | null = null;
  for (const point of points) {
    const begins: SegmentCause | null = before === null ? { cause: 'first' } : causeOf(before, point);
    const segment = segments.at(-1);
    if (begins !== null || segment === undefined)
      segments.push({ begins: begins ?? { cause: 'first' }, points: [point] });
    else if (before?.visitId === point.visitId) segment.points.splice(-1, 1, point);
    else segment.points.push(point);
    before = point;
  }
  return segments;
}
