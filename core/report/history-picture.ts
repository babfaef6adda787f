import { signedDecimal } from '../words/numbers.ts';
import { placeOn, ticksOf } from './axes.ts';
import type { Picture, Point, Shape } from './document.ts';
import { PICTURE_WIDTH_PT } from './level-picture.ts';

/** One visit: how far off it was found and left, dB; null where it was not read. */
export type HistoryPoint = Readonly<{
  atMs: number;
  day: string;
  foundDb: number | null;
  leftDb: number | null;
}>;

const LEFT_PT = 34;
const RIGHT_PT = PICTURE_WIDTH_PT - 112;
const TOP_PT = 8;
const PLOT_PT = 92;
const BOTTOM_PT = TOP_PT + PLOT_PT;

const words = (
  text: string,
  xPt: number,
  yPt: number,
  align: 'start' | 'middle' | 'end',
  bold = false,
): Shape => ({
  shape: 'words',
  text,
  xPt,
  yPt,
  sizePt: 8,
  bold,
  align,
  ink: bold ? 'ink' : 'soft',
});

/**
 * A figure over the years: a ring as found, a dot as left, joined from visit to visit, and what is allowed as a band.
 * @param name       what is shown, with its unit
 * @param points     by visit, oldest first
 * @param allowedDb  either way, dB
 * @returns  a picture without any raster, points
 * @source   common practice, no published source; every figure is core's
 */
export function historyPicture(name: string, points: readonly HistoryPoint[], allowedDb: number): Picture {
  const values = points.flatMap(({ foundDb, leftDb }) => [foundDb, leftDb].filter((db) => db !== null));
  const reach = values.reduce((most, db) => Math.max(most, Math.abs(db) * 1.15), allowedDb * 1.6);
  const span = { low: -reach, high: reach };
  const first = points[0]?.atMs ?? 0;
  const time = { low: first, high: points.at(-1)?.atMs ?? first };
  const x = (atMs: number) => placeOn(time, atMs, LEFT_PT + 10, RIGHT_PT - 10);
  const y = (db: number) => placeOn(span, db, BOTTOM_PT, TOP_PT);
  const line = (from: Point, to: Point, ink: 'hair' | 'ink' | 'soft', widthPt: number): Shape => ({
    shape: 'line',
    points: [from, to],
    ink,
    widthPt,
  });
  const shapes: Shape[] = [
    {
      shape: 'area',
      ink: 'band',
      points: [
        [LEFT_PT, y(allowedDb)],
        [RIGHT_PT, y(allowedDb)],
        [RIGHT_PT, y(-allowedDb)],
        [LEFT_PT, y(-allowedDb)],
      ],
    },
    ...ticksOf(span, 5).map((at) =>
      line([LEFT_PT, y(at)], [RIGHT_PT, y(at)], at === 0 ? 'ink' : 'hair', at === 0 ? 0.6 : 0.4),
    ),
    ...ticksOf(span, 5).map((at) => words(signedDecimal(at), LEFT_PT - 5, y(at) + 3, 'end')),
    words(name, RIGHT_PT + 8, y(0) + 3, 'start', true),
  ];
  const ends: Point[] = points.flatMap(({ atMs, foundDb, leftDb }) => {
    const out: Point[] = [];
    if (foundDb !== null) out.push([x(atMs), y(foundDb)]);
    if (leftDb !== null) out.push([x(atMs), y(leftDb)]);
    return out;
  });
  shapes.push({ shape: 'line', points: ends, ink: 'soft', widthPt: 0.7, dashPt: [2, 2] });
  for (const { atMs, foundDb, leftDb } of points) {
    if (foundDb !== null)
      shapes.push({ shape: 'dot', xPt: x(atMs), yPt: y(foundDb), radiusPt: 3, ink: 'found', hollow: true });
    if (leftDb !== null)
      shapes.push({ shape: 'dot', xPt: x(atMs), yPt: y(leftDb), radiusPt: 3, ink: 'ink', hollow: false });
  }
  // Days as there is room for them; the first and the last always.
  let freePt = Number.NEGATIVE_INFINITY;
  const lastPoint = points.at(-1);
  for (const point of points) {
    const at = x(point.atMs);
    const room = point === lastPoint || lastPoint === undefined || x(lastPoint.atMs) - at >= 54;
    if (at < freePt || !room) continue;
    shapes.push(
      line([at, BOTTOM_PT], [at, BOTTOM_PT + 4], 'ink', 0.6),
      words(point.day, at, BOTTOM_PT + 13, 'middle'),
    );
    freePt = at + 54;
  }
  return { widthPt: PICTURE_WIDTH_PT, heightPt: BOTTOM_PT + 18, shapes };
}
