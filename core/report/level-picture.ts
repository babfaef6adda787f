import type { Design } from '../files/station.ts';
import { targetDbmv } from '../line/design-line.ts';
import type { RowTarget } from '../line/row-targets.ts';
import { bareLevel, type LevelUnitWord, levelWord, signedDecimal } from '../words/numbers.ts';
import { apart, levelSpan, placeOn, type Span, ticksOf } from './axes.ts';
import type { Ink, Picture, Point, Shape } from './document.ts';
import type { JudgedSweep } from './port-view.ts';

/** The width of a page's text on the narrower of the two papers, so that a chart has one size on both. */
export const PICTURE_WIDTH_PT = 482;
const LEFT_PT = 34;
const RIGHT_PT = PICTURE_WIDTH_PT - 92;
const TOP_PT = 16;
const PLOT_PT = 158;
const STRIP_PT = 52;
const GAP_PT = 18;
/** Deviations are shown to this side of the tolerance before a bar is cut off. */
const STRIP_REACH = 2.4;

type Series = Readonly<{
  name: string;
  judged: JudgedSweep;
  ink: Ink;
  widthPt: number;
  dashPt: readonly number[] | null;
}>;
type Placed = Readonly<{ frequencyMhz: number; levelDbmv: number; target: RowTarget | null }>;

const words = (
  text: string,
  xPt: number,
  yPt: number,
  more: Partial<Extract<Shape, { shape: 'words' }>> = {},
): Shape => ({
  shape: 'words',
  text,
  xPt,
  yPt,
  sizePt: 8,
  bold: false,
  align: 'start',
  ink: 'soft',
  ...more,
});

const rule = (points: readonly Point[], ink: Ink, widthPt: number): Shape => ({
  shape: 'line',
  points,
  ink,
  widthPt,
});

/** In rising frequency, what has a level; the targets go with their rows. */
const placedOf = ({ sweep, targets }: JudgedSweep): readonly Placed[] =>
  sweep.rows
    .flatMap(({ frequencyMhz, levelDbmv, unlocked }, i) =>
      frequencyMhz === null || levelDbmv === null || unlocked === true
        ? []
        : [{ frequencyMhz, levelDbmv, target: targets[i] ?? null }],
    )
    .sort((a, b) => a.frequencyMhz - b.frequencyMhz);

/** What each kind of signal is carried below the design line: one stretch for each run of neighbours of one kind. */
function stretches(
  rows: readonly Placed[],
  design: Design,
): readonly Readonly<{ span: Span; offsetDb: number }>[] {
  const out: { span: { low: number; high: number }; offsetDb: number }[] = [];
  for (const { frequencyMhz, target } of rows) {
    if (target === null) continue;
    const offsetDb = target.targetDbmv - targetDbmv(design, frequencyMhz);
    const last = out.at(-1);
    if (last !== undefined && Math.abs(last.offsetDb - offsetDb) < 1e-6) last.span.high = frequencyMhz;
    else out.push({ span: { low: frequencyMhz, high: frequencyMhz }, offsetDb });
  }
  const [first] = out;
  const only = out.length <= 1;
  if (first === undefined || only)
    return [{ span: { low: design.lowMhz, high: design.highMhz }, offsetDb: first?.offsetDb ?? 0 }];
  return out;
}

const designPoints = (design: Design, span: Span, offsetDb: number, up: number) =>
  Array.from({ length: 13 }, (_, i) => {
    const frequencyMhz = span.low + ((span.high - span.low) * i) / 12;
    return [frequencyMhz, targetDbmv(design, frequencyMhz) + offsetDb + up] as const;
  });

/** The strip below: how far each channel lies from what it is compared with. */
function strip(
  series: readonly Series[],
  design: Design,
  topPt: number,
  x: (frequencyMhz: number) => number,
): readonly Shape[] {
  const worstDb = series.reduce(
    (most, { judged }) => Math.max(most, Math.abs(judged.standing?.worst.deviationDb ?? 0)),
    0,
  );
  const reach = Math.max(design.toleranceDb * STRIP_REACH, Math.min(worstDb * 1.1, design.toleranceDb * 6));
  const span = { low: -reach, high: reach };
  const y = (deviationDb: number) =>
    placeOn(span, Math.max(-reach, Math.min(reach, deviationDb)), topPt + STRIP_PT, topPt);
  const { toleranceDb } = design;
  const shapes: Shape[] = [
    {
      shape: 'area',
      points: [
        [LEFT_PT, y(toleranceDb)],
        [RIGHT_PT, y(toleranceDb)],
        [RIGHT_PT, y(-toleranceDb)],
        [LEFT_PT, y(-toleranceDb)],
      ],
      ink: 'band',
    },
    words(signedDecimal(toleranceDb), LEFT_PT - 5, y(toleranceDb) + 3, { align: 'end' }),
    words(signedDecimal(-toleranceDb), LEFT_PT - 5, y(-toleranceDb) + 3, { align: 'end' }),
    words('from design, dB', RIGHT_PT + 8, y(0) + 3, { ink: 'ink', bold: true }),
  ];
  const last = series.at(-1);
  if (last !== undefined)
    shapes.push({
      shape: 'boxes',
      ink: 'ink',
      boxes: placedOf(last.judged).flatMap(({ frequencyMhz, target }) => {
        if (target === null) return [];
        const at = y(target.deviationDb);
        return [[x(frequencyMhz) - 0.9, Math.min(at, y(0)), 1.8, Math.abs(at - y(0))] as const];
      }),
    });
  if (series.length > 1 && series[0] !== undefined)
    shapes.push({
      shape: 'line',
      ink: series[0].ink,
      widthPt: 0.9,
      dashPt: [3, 2],
      points: placedOf(series[0].judged).flatMap(({ frequencyMhz, target }) =>
        target === null ? [] : [[x(frequencyMhz), y(target.deviationDb)] as const],
      ),
    });
  shapes.push(
    rule(
      [
        [LEFT_PT, y(0)],
        [RIGHT_PT, y(0)],
      ],
      'ink',
      0.6,
    ),
  );
  return shapes;
}

/**
 * Before and after on one chart, each line named at its end, over a strip of deviations from the design. As found is
 * dashed, as left solid, so that grey paper tells them apart.
 * @param sweeps  one or two, in the order in which they were read, each with the name at its line's end
 * @param unit    levels are written in; millivolts are no even scale, so their axis is one of dBmV
 * @returns  a picture without any raster, points
 * @source   common practice, no published source; every level is core's
 */
export function levelPicture(
  sweeps: readonly Readonly<{ name: string; judged: JudgedSweep }>[],
  unit: LevelUnitWord,
): Picture {
  const axisUnit = unit === 'mV' ? 'dBmV' : unit;
  const series: readonly Series[] = sweeps.map(({ name, judged }, i) =>
    i === 0 && sweeps.length > 1
      ? { name, judged, ink: 'found', widthPt: 1.3, dashPt: [4, 2.2] }
      : { name, judged, ink: 'ink', widthPt: 1.6, dashPt: null },
  );
  const design = series.at(-1)?.judged.design ?? null;
  const rows = series.map(({ judged }) => placedOf(judged));
  const all = rows.flat();
  const ends =
    design === null ? [] : [design.lowDbmv - design.toleranceDb, design.highDbmv + design.toleranceDb];
  const span = levelSpan([...all.map(({ levelDbmv }) => levelDbmv), ...ends]);
  const mhz = [
    ...all.map(({ frequencyMhz }) => frequencyMhz),
    ...(design === null ? [] : [design.lowMhz, design.highMhz]),
  ];
  const band = mhz.length === 0 ? { low: 0, high: 1 } : { low: Math.min(...mhz), high: Math.max(...mhz) };
  const x = (frequencyMhz: number) => placeOn(band, frequencyMhz, LEFT_PT, RIGHT_PT);
  const bottomPt = TOP_PT + PLOT_PT;
  const y = (levelDbmv: number) => placeOn(span, levelDbmv, bottomPt, TOP_PT);
  const on = (points: readonly (readonly [number, number])[]): Point[] =>
    points.map(([f, l]) => [x(f), y(l)]);
  const shapes: Shape[] = [];
  const labels: { text: string; yPt: number; ink: Ink }[] = [];

  if (design !== null) {
    const parts = stretches(rows.at(-1) ?? [], design);
    for (const { span: part, offsetDb } of parts)
      shapes.push({
        shape: 'area',
        ink: 'band',
        points: on([
          ...designPoints(design, part, offsetDb, design.toleranceDb),
          ...designPoints(design, part, offsetDb, -design.toleranceDb).reverse(),
        ]),
      });
    for (const at of ticksOf(span, 7))
      shapes.push(
        rule(
          [
            [LEFT_PT, y(at)],
            [RIGHT_PT, y(at)],
          ],
          'hair',
          0.4,
        ),
      );
    for (const { span: part, offsetDb } of parts)
      shapes.push(rule(on(designPoints(design, part, offsetDb, 0)), 'ink', 0.7));
    const last = parts.at(-1);
    labels.push({
      text: `design \u00B1${signedDecimal(design.toleranceDb).replace('+', '')}`,
      yPt: y(targetDbmv(design, last?.span.high ?? design.highMhz) + (last?.offsetDb ?? 0)) - 10,
      ink: 'soft',
    });
  } else
    for (const at of ticksOf(span, 7))
      shapes.push(
        rule(
          [
            [LEFT_PT, y(at)],
            [RIGHT_PT, y(at)],
          ],
          'hair',
          0.4,
        ),
      );
  for (const at of ticksOf(span, 7))
    shapes.push(
      words(
        Number(bareLevel(at, axisUnit).replace('\u2212', '-')).toFixed(0).replace('-', '\u2212'),
        LEFT_PT - 5,
        y(at) + 3,
        { align: 'end' },
      ),
    );
  shapes.push(words(levelWord(axisUnit), LEFT_PT - 5, TOP_PT - 7, { align: 'end' }));

  series.forEach(({ name, ink, widthPt, dashPt }, i) => {
    const placed = rows[i] ?? [];
    shapes.push({
      shape: 'line',
      points: placed.map(({ frequencyMhz, levelDbmv }) => [x(frequencyMhz), y(levelDbmv)]),
      ink,
      widthPt,
      ...(dashPt === null ? {} : { dashPt }),
    });
    const end = placed.at(-1);
    if (end !== undefined) labels.push({ text: name, yPt: y(end.levelDbmv), ink });
  });
  const placedAt = apart(
    labels.map(({ yPt }) => yPt),
    11,
    bottomPt,
  );
  labels.forEach(({ text, ink }, i) => {
    shapes.push(words(text, RIGHT_PT + 8, (placedAt[i] ?? 0) + 3, { ink, bold: ink !== 'soft' }));
  });

  const stripTop = bottomPt + GAP_PT;
  const axisPt = design === null ? bottomPt : stripTop + STRIP_PT;
  if (design !== null) shapes.push(...strip(series, design, stripTop, x));
  for (const at of ticksOf(band, 9)) {
    shapes.push(
      rule(
        [
          [x(at), axisPt],
          [x(at), axisPt + 4],
        ],
        'ink',
        0.6,
      ),
    );
    shapes.push(words(String(at), x(at), axisPt + 13, { align: 'middle' }));
  }
  shapes.push(words('MHz', RIGHT_PT + 8, axisPt + 13));
  return { widthPt: PICTURE_WIDTH_PT, heightPt: axisPt + 18, shapes };
}
