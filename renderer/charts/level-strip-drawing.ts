import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { bareLevel } from '../format.ts';
import { levelTicks } from './level-ticks.ts';
import type { LiveInks } from './live-drawing.ts';
import type { Span } from './scale.ts';

export type StripReading = Readonly<{ atS: number; levelDbmv: number | null }>;

export type LevelStripPicture = Readonly<{
  width: number;
  height: number;
  readings: readonly StripReading[];
  /** The moment at the right edge, on the readings' clock. */
  nowS: number;
  target: Readonly<{ levelDbmv: number; toleranceDb: number; name: string }> | null;
  inks: LiveInks;
  unit: LevelUnitName;
}>;

type Pen = CanvasRenderingContext2D;

export const STRIP_S = 60;
/** Readings further apart than this are not joined: nothing is known between them. */
const GAP_S = 1;
/** A target further away than this is named at the edge, so that the level keeps its room. */
const TARGET_IN_SIGHT_DB = 8;
const LEAST_SPAN_DB = 4;
const LEFT = 44;
const RIGHT = 96;
const TOP = 14;
const BOTTOM = 30;

/** Whole decibels around what is shown, never flatter than four, so that noise looks like noise. */
export function stripSpanOf(levels: readonly number[], targetDbmv: number | null): Span {
  const middle = levels.at(-1) ?? targetDbmv ?? 0;
  const near = targetDbmv !== null && Math.abs(targetDbmv - middle) <= TARGET_IN_SIGHT_DB ? [targetDbmv] : [];
  const all = levels.length === 0 ? [middle - 1, middle + 1] : [...levels, ...near];
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const one of all) {
    low = Math.min(low, one);
    high = Math.max(high, one);
  }
  const span = { low: Math.floor(low - 0.4), high: Math.ceil(high + 0.4) };
  const missing = LEAST_SPAN_DB - (span.high - span.low);
  if (missing <= 0) return span;
  const below = Math.ceil(missing / 2);
  return { low: span.low - below, high: span.high + missing - below };
}

/** Stretches of readings without a hole in them. */
export function stretchesOf(readings: readonly StripReading[]): readonly (readonly StripReading[])[] {
  const stretches: StripReading[][] = [];
  let open: StripReading[] | null = null;
  let lastS = Number.NEGATIVE_INFINITY;
  for (const reading of readings) {
    if (reading.levelDbmv === null) open = null;
    else {
      if (open === null || reading.atS - lastS > GAP_S) {
        open = [];
        stretches.push(open);
      }
      open.push(reading);
      lastS = reading.atS;
    }
  }
  return stretches;
}

function text(
  pen: Pen,
  words: string,
  x: number,
  y: number,
  ink: string,
  font: string,
  align: CanvasTextAlign,
) {
  pen.fillStyle = ink;
  pen.font = font;
  pen.textAlign = align;
  pen.fillText(words, x, y);
}

function line(
  pen: Pen,
  from: readonly [number, number],
  to: readonly [number, number],
  ink: string,
  width: number,
) {
  pen.strokeStyle = ink;
  pen.lineWidth = width;
  pen.beginPath();
  pen.moveTo(from[0], from[1]);
  pen.lineTo(to[0], to[1]);
  pen.stroke();
}

/** The last minute of one level: the present at the right edge, the target as a band with its name beside it. */
export function drawLevelStrip(pen: Pen, picture: LevelStripPicture): void {
  const { width, height, nowS, target, inks } = picture;
  const shown = picture.readings.filter(({ atS }) => atS >= nowS - STRIP_S);
  const levels = shown.flatMap(({ levelDbmv }) => (levelDbmv === null ? [] : [levelDbmv]));
  const span = stripSpanOf(levels, target?.levelDbmv ?? null);
  const right = Math.max(LEFT + 1, width - RIGHT);
  const bottom = Math.max(TOP + 1, height - BOTTOM);
  const x = (atS: number) => LEFT + ((atS - nowS + STRIP_S) / STRIP_S) * (right - LEFT);
  const y = (levelDbmv: number) => TOP + ((span.high - levelDbmv) / (span.high - span.low)) * (bottom - TOP);
  const held = (at: number) => Math.min(bottom, Math.max(TOP, at));
  const small = `500 14px ${inks.font}`;

  pen.clearRect(0, 0, width, height);
  // Without a level and a target there is nothing that an axis could tell.
  const ticks =
    levels.length === 0 && target === null
      ? []
      : levelTicks(span, picture.unit, Math.min(8, Math.max(4, Math.floor((bottom - TOP) / 30))));
  for (const tick of ticks) {
    const at = y(tick.levelDbmv);
    line(pen, [LEFT, at], [right, at], inks.hair, 1);
    text(pen, tick.text, LEFT - 8, at + 5, inks.ink, small, 'right');
  }
  for (const back of [60, 45, 30, 15])
    text(
      pen,
      `\u2212${back} s`,
      x(nowS - back),
      height - 6,
      inks.soft,
      small,
      back === 60 ? 'left' : 'center',
    );
  text(pen, 'now', right, height - 6, inks.soft, small, 'center');

  if (target !== null) {
    const { levelDbmv, toleranceDb, name } = target;
    const bold = `700 15px ${inks.font}`;
    if (levelDbmv >= span.low && levelDbmv <= span.high) {
      pen.fillStyle = inks.band;
      pen.fillRect(
        LEFT,
        held(y(levelDbmv + toleranceDb)),
        right - LEFT,
        held(y(levelDbmv - toleranceDb)) - held(y(levelDbmv + toleranceDb)),
      );
      line(pen, [LEFT, y(levelDbmv)], [right, y(levelDbmv)], inks.ink, 2);
      text(pen, name, right + 14, y(levelDbmv) + 5, inks.ink, bold, 'left');
    } else {
      const above = levelDbmv > span.high;
      text(
        pen,
        `${name} ${above ? '↑' : '↓'}`,
        right + 14,
        above ? TOP + 12 : bottom,
        inks.ink,
        bold,
        'left',
      );
      text(
        pen,
        bareLevel(levelDbmv, picture.unit),
        right + 14,
        above ? TOP + 30 : bottom - 18,
        inks.ink,
        small,
        'left',
      );
    }
  }

  pen.strokeStyle = inks.trace;
  pen.fillStyle = inks.trace;
  pen.lineWidth = 3;
  pen.lineJoin = 'round';
  pen.lineCap = 'round';
  for (const stretch of stretchesOf(shown)) {
    pen.beginPath();
    stretch.forEach(({ atS, levelDbmv }, i) => {
      const py = y(levelDbmv ?? 0);
      if (i === 0) pen.moveTo(x(atS), py);
      pen.lineTo(x(atS) + (stretch.length === 1 ? 0.1 : 0), py);
    });
    pen.stroke();
  }
  const last = shown.at(-1);
  if (last !== undefined && last.levelDbmv !== null && nowS - last.atS <= GAP_S) {
    pen.beginPath();
    pen.arc(x(last.atS), y(last.levelDbmv), 7, 0, 7);
    pen.fill();
  }
}
