import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import type { Design } from '../../core/files/station.ts';
import { isWithinTolerance } from '../../core/line/deviation.ts';
import type { LevelRow } from '../../core/line/level-row.ts';
import { bareLevel, bareMhz, levelWord } from '../format.ts';
import { levelTicks } from './level-ticks.ts';
import {
  AXIS_HEIGHT,
  axisUnitAt,
  levelPlot,
  levelSpan,
  type PlotBox,
  stripHeight,
  stripPlot,
  stripSpan,
  ticksOf,
  xAt,
  yAt,
} from './scale.ts';

export type LiveInks = Readonly<{
  ink: string;
  soft: string;
  hair: string;
  edge: string;
  band: string;
  trace: string;
  font: string;
}>;

export type LivePicture = Readonly<{
  width: number;
  height: number;
  rows: readonly LevelRow[];
  design: Design | null;
  target: (frequencyMhz: number) => number | null;
  lowMhz: number;
  highMhz: number;
  unit: LevelUnitName;
  inks: LiveInks;
}>;

/** As fine as a channel, so that the band's steps between kinds of signal stand where they are. */
const BAND_STEPS = 136;

type Pen = CanvasRenderingContext2D;
type Point = readonly [number, number];

function polyline(pen: Pen, points: readonly Point[], ink: string, width: number): void {
  pen.strokeStyle = ink;
  pen.lineWidth = width;
  pen.lineJoin = 'round';
  pen.lineCap = 'round';
  pen.beginPath();
  points.forEach(([x, y], i) => {
    if (i === 0) pen.moveTo(x, y);
    else pen.lineTo(x, y);
  });
  // A single reading is a dot of the line's own width, not nothing.
  if (points.length === 1 && points[0] !== undefined) pen.lineTo(points[0][0] + 0.1, points[0][1]);
  pen.stroke();
}

function words(
  pen: Pen,
  text: string,
  x: number,
  y: number,
  ink: string,
  font: string,
  align: CanvasTextAlign,
): void {
  pen.fillStyle = ink;
  pen.font = font;
  pen.textAlign = align;
  pen.fillText(text, x, y);
}

/** Frequencies along a design, its ends among them; none without one. */
const bandSteps = (design: Design | null): readonly number[] =>
  design === null
    ? []
    : Array.from(
        { length: BAND_STEPS + 1 },
        (_, i) => design.lowMhz + ((design.highMhz - design.lowMhz) * i) / BAND_STEPS,
      );

/** Draws the running sweep in the place and on the axes of the finished picture, so that nothing jumps when it ends. */
export function drawLive(pen: Pen, picture: LivePicture): void {
  const { width, height, rows, design, target, inks } = picture;
  const levelHeight = height - stripHeight(design?.toleranceDb ?? null);
  const plot = levelPlot(width, levelHeight);
  const read = rows.flatMap((row) =>
    row.frequencyMhz === null || row.levelDbmv === null ? [] : [[row.frequencyMhz, row.levelDbmv] as const],
  );
  const low = Math.min(picture.lowMhz, design?.lowMhz ?? picture.lowMhz);
  const high = Math.max(picture.highMhz, design?.highMhz ?? picture.highMhz);
  const frequencies = { low, high: high > low ? high : low + 1 };
  const bandLevels = bandSteps(design).flatMap((f) => {
    const at = target(f) ?? 0;
    const margin = design?.toleranceDb ?? 0;
    return [at - margin, at + margin];
  });
  const span = levelSpan([...read.map(([, levelDbmv]) => levelDbmv), ...bandLevels]);
  const x = (f: number) => xAt(plot, frequencies, f);
  const y = (levelDbmv: number) => yAt(plot, span, levelDbmv);
  const small = `500 14px ${inks.font}`;

  pen.clearRect(0, 0, width, height);
  for (const tick of levelTicks(span, picture.unit, 8)) {
    polyline(
      pen,
      [
        [plot.left, y(tick.levelDbmv)],
        [plot.right, y(tick.levelDbmv)],
      ],
      inks.hair,
      1,
    );
    words(pen, tick.text, plot.left - 8, y(tick.levelDbmv) + 5, inks.ink, small, 'right');
  }
  const unit = levelWord(picture.unit);
  const unitAt = axisUnitAt(unit, plot.left - 8);
  words(pen, unit, unitAt.x, 14, inks.soft, small, unitAt.anchor);
  if (design !== null) drawDesign(pen, picture, plot, x, y);
  polyline(
    pen,
    read.map(([f, levelDbmv]) => [x(f), y(levelDbmv)]),
    inks.trace,
    3,
  );
  const last = read.at(-1);
  if (last !== undefined) {
    pen.fillStyle = inks.trace;
    pen.beginPath();
    pen.arc(x(last[0]), y(last[1]), 5.5, 0, 7);
    pen.fill();
    const leftward = x(last[0]) > plot.right - 90;
    words(
      pen,
      bareLevel(last[1], picture.unit),
      x(last[0]) + (leftward ? -14 : 14),
      y(last[1]) + (leftward ? 28 : 24),
      inks.ink,
      `700 20px ${inks.font}`,
      leftward ? 'right' : 'left',
    );
  }
  pen.save();
  pen.translate(0, levelHeight);
  drawStrip(pen, picture, frequencies, read);
  pen.restore();
}

function drawDesign(
  pen: Pen,
  { design, target, inks }: LivePicture,
  plot: PlotBox,
  x: (f: number) => number,
  y: (l: number) => number,
): void {
  if (design === null) return;
  const steps = bandSteps(design);
  const at = (offsetDb: number): Point[] => steps.map((f) => [x(f), y((target(f) ?? 0) + offsetDb)]);
  const upper = at(design.toleranceDb);
  const lower = at(-design.toleranceDb);
  pen.fillStyle = inks.band;
  pen.beginPath();
  for (const [px, py] of [...upper, ...lower.toReversed()]) pen.lineTo(px, py);
  pen.fill();
  polyline(pen, upper, inks.edge, 1);
  polyline(pen, lower, inks.edge, 1);
  polyline(pen, at(0), inks.ink, 1.5);
  const end = at(0).at(-1);
  if (end !== undefined)
    words(
      pen,
      `design ±${design.toleranceDb}`,
      plot.right + 12,
      end[1] + 5,
      inks.ink,
      `600 15px ${inks.font}`,
      'left',
    );
}

function drawStrip(
  pen: Pen,
  { width, design, target, inks }: LivePicture,
  frequencies: { low: number; high: number },
  read: readonly (readonly [number, number])[],
): void {
  const plot = stripPlot(width);
  const height = stripHeight(design?.toleranceDb ?? null);
  const x = (f: number) => xAt(plot, frequencies, f);
  const small = `500 14px ${inks.font}`;
  if (design !== null) {
    const off = read.flatMap(([f, levelDbmv]) => {
      const at = f < design.lowMhz || f > design.highMhz ? null : target(f);
      return at === null ? [] : [[f, levelDbmv - at] as const];
    });
    const worstDb = off.reduce((worst, [, db]) => Math.max(worst, Math.abs(db)), 0);
    const span = stripSpan(design.toleranceDb, worstDb);
    const y = (db: number) => yAt(plot, span, Math.max(span.low, Math.min(span.high, db)));
    pen.fillStyle = inks.band;
    pen.fillRect(
      plot.left,
      y(design.toleranceDb),
      plot.right - plot.left,
      y(-design.toleranceDb) - y(design.toleranceDb),
    );
    for (const limitDb of [design.toleranceDb, -design.toleranceDb])
      words(
        pen,
        `${limitDb > 0 ? '+' : '\u2212'}${Math.abs(limitDb)}`,
        plot.left - 8,
        y(limitDb) + 5,
        inks.ink,
        small,
        'right',
      );
    for (const [f, db] of off) {
      pen.fillStyle = isWithinTolerance(db, design.toleranceDb) ? inks.edge : inks.ink;
      pen.fillRect(x(f) - 1.7, Math.min(y(0), y(db)), 3.4, Math.max(0.5, Math.abs(y(db) - y(0))));
    }
    polyline(
      pen,
      [
        [plot.left, y(0)],
        [plot.right, y(0)],
      ],
      inks.ink,
      1.5,
    );
    words(pen, 'from design, dB', plot.right + 12, y(0) + 5, inks.ink, `600 15px ${inks.font}`, 'left');
  }
  for (const tick of ticksOf(frequencies, Math.max(3, Math.floor((plot.right - plot.left) / 70)))) {
    polyline(
      pen,
      [
        [x(tick), height - AXIS_HEIGHT + 2],
        [x(tick), height - AXIS_HEIGHT + 8],
      ],
      inks.ink,
      1,
    );
    words(pen, bareMhz(tick), x(tick), height - 5, inks.ink, small, 'center');
  }
  words(pen, 'MHz', plot.right + 12, height - 5, inks.soft, small, 'left');
}
