import { useId } from 'react';
import { oneDecimal } from '../format.ts';
import type { ControlPictureProps, ControlPoint } from './ControlPicture.tsx';
import { Crosshair, type CrossLine } from './Crosshair.tsx';
import type { ControlPlots } from './control-plots.ts';
import { type ControlRow, valueWords } from './control-values.ts';
import { LevelGrid } from './LevelGrid.tsx';
import { apart, type PlotBox, type Span, ticksOf, xAt, yAt } from './scale.ts';
import { timeTicks } from './time-scale.ts';

export type ControlDrawingProps = ControlPictureProps &
  Readonly<{
    plots: ControlPlots;
    /** The part of the years that is looked at. */
    view: Span;
    /** What the crosshair stands on; null where it is nowhere. */
    row: ControlRow | null;
    lines: readonly CrossLine[];
    width: number;
    height: number;
  }>;

/** A span that holds values and limits, with a little room. */
function spanOf(values: readonly number[]): Span {
  const low = Math.min(...values);
  const high = Math.max(...values);
  const room = Math.max(0.2, (high - low) * 0.1);
  return { low: low - room, high: high + room };
}

/** Names at the right edge stand so far apart. */
const LABEL_GAP = 17;
/** What a stretch's words take; nearer than that to the right end they go to the left of their line. */
const WORDS = 110;

export function ControlDrawing(props: ControlDrawingProps) {
  const { points, begins, chart, trend, limits, limitsName, isSigned, plots, view, row, width, height } =
    props;
  const clip = useId();
  const plot = plots.values;
  const foot = (plots.ranges ?? plot).bottom;
  const x = (atMs: number) => xAt(plot, view, atMs);
  const text = (db: number) => valueWords(db, isSigned);
  const stands = [
    ...(chart === null
      ? []
      : [
          { key: 'upper', db: chart.upper, words: 'upper limit' },
          { key: 'center', db: chart.center, words: 'mean' },
          { key: 'lower', db: chart.lower, words: 'lower limit' },
        ]),
  ];
  const allowed = [limits.toDb, limits.fromDb].filter((db) => db !== null);
  const levels = spanOf([
    ...points.map(({ valueDb }) => valueDb),
    ...stands.map(({ db }) => db),
    ...(trend ?? []).map(({ valueDb }) => valueDb),
    ...allowed,
  ]);
  const y = (db: number) => yAt(plot, levels, db);
  const newest = points.filter(({ isNewest }) => isNewest);
  const first = newest[0];
  const from = first === undefined ? plot.left : Math.max(plot.left, x(first.atMs));
  const inView = ({ atMs }: Readonly<{ atMs: number }>) => atMs >= view.low && atMs <= view.high;
  const trendEnd = trend?.at(-1);
  const labels = apart(
    [
      ...stands.map(({ key, db, words }) => ({
        key,
        text: `${words} ${text(db)}`,
        x: plot.right + 8,
        y: y(db) + 5,
      })),
      ...allowed.map((db) => ({
        key: `limit ${db}`,
        text: `${limitsName} ${text(db)}`,
        x: plot.right + 8,
        y: y(db) + 5,
      })),
      ...(trendEnd === undefined || !inView(trendEnd)
        ? []
        : [{ key: 'trend', text: 'trend', x: plot.right + 8, y: y(trendEnd.valueDb) + 5 }]),
    ],
    LABEL_GAP,
    plot,
  );
  const grid = ticksOf(levels, Math.max(2, (plot.bottom - plot.top) / 42)).map((db) => ({
    y: y(db),
    text: text(db),
  }));
  return (
    <svg className="overlay" width={width} height={height} aria-hidden="true">
      <LevelGrid plot={plot} unit="dB" lines={grid} />
      {allowed.map((db) => (
        <line key={db} className="control__design" x1={plot.left} x2={plot.right} y1={y(db)} y2={y(db)} />
      ))}
      <Begins begins={begins.filter(inView)} x={x} plot={plot} foot={foot} />
      {stands.map(({ key, db }) => (
        <line key={key} className={`control__${key}`} x1={from} x2={plot.right} y1={y(db)} y2={y(db)} />
      ))}
      <clipPath id={clip}>
        <rect x={plot.left} y={0} width={plot.right - plot.left} height={height} />
      </clipPath>
      <g clipPath={`url(#${clip})`}>
        {trend !== null && (
          <polyline
            className="control__trend"
            points={trend.map(({ atMs, valueDb }) => `${x(atMs)},${y(valueDb)}`).join(' ')}
          />
        )}
        <polyline
          className="control__path"
          points={newest.map(({ atMs, valueDb }) => `${x(atMs)},${y(valueDb)}`).join(' ')}
        />
      </g>
      {points.filter(inView).map((point) => (
        <Point key={point.key} point={point} x={x(point.atMs)} y={y(point.valueDb)} />
      ))}
      {labels.map(({ key, text: words, x: at, y: down }) => (
        <text
          key={key}
          className={`control__label${key === 'trend' ? ' control__label--trend' : ''}`}
          x={at}
          y={down}
        >
          {words}
        </text>
      ))}
      {chart !== null && plots.ranges !== null && (
        <Ranges chart={chart} plot={plots.ranges} newest={newest} view={view} from={from} />
      )}
      {timeTicks(view, Math.max(2, (plot.right - plot.left) / 110)).map(({ ms, text: words }) => (
        <text key={ms} className="tick" x={x(ms)} y={height - 8} textAnchor="middle">
          {words}
        </text>
      ))}
      {row !== null && inView(row.point) && (
        <Crosshair
          at={x(row.point.atMs)}
          plot={plot}
          bottom={foot}
          where={row.point.words}
          lines={props.lines}
          marks={[
            {
              key: 'value',
              y: y(row.point.valueDb),
              shape: row.point.breaks.length > 0 ? 'square' : 'round',
            },
          ]}
          behind={points.filter(inView).map(({ atMs, valueDb }) => ({ x: x(atMs), y: y(valueDb) }))}
        />
      )}
    </svg>
  );
}

type BeginsProps = Readonly<{
  begins: ControlPictureProps['begins'];
  x: (atMs: number) => number;
  plot: PlotBox;
  foot: number;
}>;

/** Where stretches begin. Where many lie together one word stands for them. */
function Begins({ begins, x, plot, foot }: BeginsProps) {
  let free = Number.NEGATIVE_INFINITY;
  return begins.map(({ atMs, words }) => {
    const at = x(atMs);
    const isLate = at > plot.right - WORDS;
    const from = isLate ? at - WORDS : at;
    const isFree = from >= free;
    if (isFree) free = from + WORDS;
    return (
      <g key={atMs}>
        <line className="control__begin" x1={at} x2={at} y1={plot.top} y2={foot} />
        {isFree && (
          <text
            className="control__words"
            x={at + (isLate ? -6 : 6)}
            y={plot.top - 8}
            textAnchor={isLate ? 'end' : 'start'}
          >
            {words}
          </text>
        )}
      </g>
    );
  });
}

type RangesProps = Readonly<{
  chart: NonNullable<ControlPictureProps['chart']>;
  plot: PlotBox;
  newest: readonly ControlPoint[];
  view: Span;
  from: number;
}>;

/** How far each is from the one before it, with the limit of that. */
function Ranges({ chart, plot, newest, view, from }: RangesProps) {
  const span: Span = { low: 0, high: Math.max(0.2, chart.rangeUpper, ...chart.ranges) * 1.1 };
  const y = (db: number) => yAt(plot, span, db);
  const limit = y(chart.rangeUpper);
  return (
    <>
      <text className="tick tick--unit" x={plot.left} y={plot.top - 8}>
        moving range, dB
      </text>
      <line className="control__center" x1={plot.left} x2={plot.right} y1={plot.bottom} y2={plot.bottom} />
      <line className="control__upper" x1={from} x2={plot.right} y1={limit} y2={limit} />
      <text className="control__label" x={plot.right + 8} y={limit + 5}>
        {`its limit ${oneDecimal(chart.rangeUpper)}`}
      </text>
      {chart.ranges.map((db, i) => {
        const at = newest[i + 1];
        return at === undefined || at.atMs < view.low || at.atMs > view.high ? null : (
          <line
            key={at.key}
            className={`control__range${db > chart.rangeUpper ? ' control__range--out' : ''}`}
            x1={xAt(plot, view, at.atMs)}
            x2={xAt(plot, view, at.atMs)}
            y1={plot.bottom}
            y2={y(db)}
          />
        );
      })}
    </>
  );
}

type PointProps = Readonly<{ point: ControlPoint; x: number; y: number }>;

/** A disc, hollow where it counts no more, a square where it breaks a rule. */
const Point = ({ point: { isNewest, breaks }, x, y }: PointProps) =>
  breaks.length > 0 ? (
    <rect className="control__signal" x={x - 7} y={y - 7} width="14" height="14" />
  ) : (
    <circle className={isNewest ? 'control__dot' : 'control__dot control__dot--before'} cx={x} cy={y} r="5" />
  );
