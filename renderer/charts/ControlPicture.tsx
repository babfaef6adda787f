import { useRef } from 'react';
import { oneDecimal, signedDecimal } from '../format.ts';
import { apart, type PlotBox, type Span, ticksOf, yAt } from './scale.ts';
import { timeSpan, timeTicks } from './time-scale.ts';
import { useSize } from './use-size.ts';

/** One sweep of the chart. Of an earlier stretch it is shown, but counts for no limit. */
export type ControlPoint = Readonly<{
  sweepId: string;
  atMs: number;
  valueDb: number;
  isNewest: boolean;
  /** The rules it breaks; empty where none. */
  breaks: readonly string[];
  /** Read out, and shown where the point is looked at: "3 March 2025, as found, 12 degrees". */
  words: string;
}>;

export type ControlPictureProps = Readonly<{
  title: string;
  points: readonly ControlPoint[];
  /** Where a stretch begins, with what was changed. */
  begins: readonly Readonly<{ atMs: number; words: string }>[];
  chart: Readonly<{
    center: number;
    lower: number;
    upper: number;
    rangeUpper: number;
    ranges: readonly number[];
  }> | null;
  /** The trend as two points of time and dB. */
  trend: readonly Readonly<{ atMs: number; valueDb: number }>[] | null;
  limits: Readonly<{ fromDb: number | null; toDb: number | null }>;
  isSigned: boolean;
  onOpen: (sweepId: string) => void;
}>;

const LEFT = 52;
const RIGHT = 132;
const TOP = 26;
const AXIS = 30;
const RANGE_SHARE = 0.24;
const GAP = 26;

/** A span that holds values and limits, with a little room. */
function spanOf(values: readonly number[]): Span {
  const low = Math.min(...values);
  const high = Math.max(...values);
  const room = Math.max(0.2, (high - low) * 0.1);
  return { low: low - room, high: high + room };
}

/**
 * A figure over the years as a Shewhart chart: each sweep a point that opens it, the limits of the newest stretch, its trend,
 * the design's own limits, and the moving ranges beneath.
 */
export function ControlPicture(props: ControlPictureProps) {
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  return (
    <div ref={box} className="control-picture">
      {size !== null && size.width > LEFT + RIGHT && size.height > 120 && props.points.length > 0 && (
        <Drawing {...props} width={size.width} height={size.height} />
      )}
    </div>
  );
}

type DrawingProps = ControlPictureProps & Readonly<{ width: number; height: number }>;

function Drawing(props: DrawingProps) {
  const { title, points, begins, chart, trend, limits, isSigned, onOpen, width, height } = props;
  const right = width - RIGHT;
  const rangeHeight = chart === null ? 0 : Math.round((height - AXIS) * RANGE_SHARE);
  const plot: PlotBox = {
    left: LEFT,
    right,
    top: TOP,
    bottom: height - AXIS - rangeHeight - (chart === null ? 0 : GAP),
  };
  const ranges: PlotBox = { left: LEFT, right, top: plot.bottom + GAP, bottom: height - AXIS };
  const time = timeSpan(points.map(({ atMs }) => atMs));
  const x = (atMs: number) => LEFT + ((atMs - time.low) / (time.high - time.low)) * (right - LEFT);
  const lines = [
    ...(chart === null
      ? []
      : [
          { key: 'upper', db: chart.upper, text: 'upper limit' },
          { key: 'center', db: chart.center, text: 'mean' },
          { key: 'lower', db: chart.lower, text: 'lower limit' },
        ]),
  ];
  const design = [
    ...(limits.toDb === null ? [] : [limits.toDb]),
    ...(limits.fromDb === null ? [] : [limits.fromDb]),
  ];
  const levels = spanOf([
    ...points.map(({ valueDb }) => valueDb),
    ...lines.map(({ db }) => db),
    ...(trend ?? []).map(({ valueDb }) => valueDb),
    ...design,
  ]);
  const y = (db: number) => yAt(plot, levels, db);
  const rangeSpan: Span = {
    low: 0,
    high: Math.max(0.2, ...(chart === null ? [] : [chart.rangeUpper, ...chart.ranges])) * 1.1,
  };
  const yRange = (db: number) => yAt(ranges, rangeSpan, db);
  const text = isSigned ? signedDecimal : oneDecimal;
  const newest = points.filter(({ isNewest }) => isNewest);
  const labels = apart(
    [
      ...lines.map(({ key, db, text: words }) => ({
        key,
        text: `${words} ${text(db)}`,
        x: right + 8,
        y: y(db) + 5,
      })),
      ...design.map((db) => ({
        key: `design ${db}`,
        text: `design ${text(db)}`,
        x: right + 8,
        y: y(db) + 5,
      })),
    ],
    17,
    plot,
  );
  const first = newest[0];
  const from = first === undefined ? LEFT : x(first.atMs);
  return (
    <svg width={width} height={height}>
      <title>{title}</title>
      {ticksOf(levels, Math.max(2, (plot.bottom - plot.top) / 42)).map((db) => (
        <g key={db} className="level-chart__grid">
          <line x1={LEFT} x2={right} y1={y(db)} y2={y(db)} />
          <text className="tick" x={LEFT - 10} y={y(db) + 5} textAnchor="end">
            {text(db)}
          </text>
        </g>
      ))}
      <text className="tick tick--unit" x={LEFT - 10} y={TOP - 10} textAnchor="end">
        dB
      </text>
      {design.map((db) => (
        <line key={db} className="control__design" x1={LEFT} x2={right} y1={y(db)} y2={y(db)} />
      ))}
      {begins.map(({ atMs, words }) => (
        <g key={atMs}>
          <line className="control__begin" x1={x(atMs)} x2={x(atMs)} y1={plot.top} y2={height - AXIS} />
          <text
            className="control__words"
            x={x(atMs) + (x(atMs) > right - 160 ? -6 : 6)}
            y={plot.top + 10}
            textAnchor={x(atMs) > right - 160 ? 'end' : 'start'}
          >
            {words}
          </text>
        </g>
      ))}
      {lines.map(({ key, db }) => (
        <line key={key} className={`control__${key}`} x1={from} x2={right} y1={y(db)} y2={y(db)} />
      ))}
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
      {points.map((point) => (
        <Point key={point.sweepId} point={point} x={x(point.atMs)} y={y(point.valueDb)} onOpen={onOpen} />
      ))}
      {labels.map(({ key, text: words, x: at, y: down }) => (
        <text key={key} className="control__label" x={at} y={down}>
          {words}
        </text>
      ))}
      {chart !== null && (
        <>
          <text className="tick tick--unit" x={LEFT} y={ranges.top - 8}>
            moving range, dB
          </text>
          <line className="control__center" x1={LEFT} x2={right} y1={ranges.bottom} y2={ranges.bottom} />
          <line
            className="control__upper"
            x1={from}
            x2={right}
            y1={yRange(chart.rangeUpper)}
            y2={yRange(chart.rangeUpper)}
          />
          <text className="control__label" x={right + 8} y={yRange(chart.rangeUpper) + 5}>
            {`its limit ${oneDecimal(chart.rangeUpper)}`}
          </text>
          {chart.ranges.map((db, i) => {
            const at = newest[i + 1];
            return at === undefined ? null : (
              <line
                key={at.sweepId}
                className={`control__range${db > chart.rangeUpper ? ' control__range--out' : ''}`}
                x1={x(at.atMs)}
                x2={x(at.atMs)}
                y1={ranges.bottom}
                y2={yRange(db)}
              />
            );
          })}
        </>
      )}
      {timeTicks(time, Math.max(2, (right - LEFT) / 110)).map(({ ms, text: words }) => (
        <text key={ms} className="tick" x={x(ms)} y={height - 8} textAnchor="middle">
          {words}
        </text>
      ))}
    </svg>
  );
}

type PointProps = Readonly<{
  point: ControlPoint;
  x: number;
  y: number;
  onOpen: (sweepId: string) => void;
}>;

/** A sweep as a point: a disc, hollow where it counts no more, a square where it breaks a rule. It opens its sweep. */
function Point({ point, x, y, onOpen }: PointProps) {
  const { sweepId, isNewest, breaks, words } = point;
  const name = breaks.length === 0 ? words : `${words}; ${breaks.join('; ')}`;
  return (
    <a
      href={`#sweep-${sweepId}`}
      className="control__point"
      aria-label={`${name}. Opens the sweep.`}
      onClick={(event) => {
        event.preventDefault();
        onOpen(sweepId);
      }}
    >
      <circle className="control__reach" cx={x} cy={y} r="22" />
      {breaks.length > 0 ? (
        <rect className="control__signal" x={x - 7} y={y - 7} width="14" height="14" />
      ) : (
        <circle
          className={isNewest ? 'control__dot' : 'control__dot control__dot--before'}
          cx={x}
          cy={y}
          r="5"
        />
      )}
    </a>
  );
}
