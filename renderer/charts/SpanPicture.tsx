import { useRef } from 'react';
import { bareMhz, oneDecimal } from '../format.ts';
import { apart, type PlotBox, ticksOf, xAt, yAt } from './scale.ts';
import { useSize } from './use-size.ts';

export type SpanCurve = Readonly<{
  key: 'cold' | 'now' | 'hot';
  /** "hot, 60 °C" */
  words: string;
  points: readonly (readonly [mhz: number, lossDb: number])[];
}>;

export type SpanPictureProps = Readonly<{
  curves: readonly SpanCurve[];
  /** Measured loss; empty where no sweep tells it. */
  measured: readonly (readonly [mhz: number, lossDb: number])[];
  lowMhz: number;
  highMhz: number;
  title: string;
}>;

const LEFT = 52;
const RIGHT = 172;
const TOP = 34;
const BOTTOM = 36;
const LABEL_GAP = 20;

const lineOf = (points: readonly (readonly [number, number])[]): string =>
  points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`).join('');

/** What the cable takes away, hanging down from nothing: the farther down, the less is left. */
export function SpanPicture({ curves, measured, lowMhz, highMhz, title }: SpanPictureProps) {
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  return (
    <div ref={box} className="picture" role="img" aria-label={title}>
      {size !== null && size.width > LEFT + RIGHT && size.height > 120 && (
        <Drawing {...{ curves, measured, lowMhz, highMhz, title }} width={size.width} height={size.height} />
      )}
    </div>
  );
}

type DrawingProps = SpanPictureProps & Readonly<{ width: number; height: number }>;

function Drawing({ curves, measured, lowMhz, highMhz, width, height }: DrawingProps) {
  const plot: PlotBox = { left: LEFT, right: width - RIGHT, top: TOP, bottom: height - BOTTOM };
  const most = Math.max(
    ...[...curves.flatMap(({ points }) => points), ...measured].map(([, lossDb]) => lossDb),
  );
  // Losses hang down: the span of the axis is turned about.
  const span = { low: Math.ceil((most + 0.5) / 2) * 2, high: 0 };
  const band = { low: lowMhz, high: highMhz };
  const x = (mhz: number) => xAt(plot, band, mhz);
  const y = (lossDb: number) => yAt(plot, span, lossDb);
  const right = plot.right + 12;
  const now = curves.find(({ key }) => key === 'now');
  const [first, last] = [now?.points[0], now?.points.at(-1)];
  const labels = apart(
    curves.flatMap(({ key, words, points }) => {
      const end = points.at(-1);
      return end === undefined
        ? []
        : [{ key, text: `${oneDecimal(end[1])}  ${words}`, x: right, y: y(end[1]) }];
    }),
    LABEL_GAP,
    plot,
  );
  const halfway = measured[Math.floor(measured.length / 2)];
  return (
    <svg className="overlay span-picture" width={width} height={height} aria-hidden="true">
      <text className="tick tick--unit" x={plot.left - 10} y={plot.top - 14} textAnchor="end">
        dB
      </text>
      <text className="tick tick--unit" x={plot.left} y={plot.top - 14}>
        lost in the span
      </text>
      {ticksOf({ low: 0, high: span.low }, 8).map((lossDb) => (
        <g key={lossDb}>
          <line className="span-picture__grid" x1={plot.left} x2={plot.right} y1={y(lossDb)} y2={y(lossDb)} />
          <text className="tick" x={plot.left - 10} y={y(lossDb) + 5} textAnchor="end">
            {lossDb}
          </text>
        </g>
      ))}
      {ticksOf(band, 10).map((mhz) => (
        <g key={mhz}>
          <line className="strip__tick" x1={x(mhz)} x2={x(mhz)} y1={plot.bottom + 4} y2={plot.bottom + 10} />
          <text className="tick" x={x(mhz)} y={plot.bottom + 27} textAnchor="middle">
            {bareMhz(mhz)}
          </text>
        </g>
      ))}
      <text className="tick tick--unit" x={right} y={plot.bottom + 27}>
        MHz
      </text>
      <path className="span-picture__season" d={seasonOf(curves, x, y)} />
      {curves.map(({ key, points }) => (
        <path
          key={key}
          className={`span-picture__curve span-picture__curve--${key}`}
          d={lineOf(points.map(([mhz, lossDb]) => [x(mhz), y(lossDb)]))}
        />
      ))}
      {measured.length > 0 && (
        <path
          className="span-picture__measured"
          d={lineOf(measured.map(([mhz, lossDb]) => [x(mhz), y(lossDb)]))}
        />
      )}
      {halfway !== undefined && (
        <text
          className="label label--found span-picture__words"
          x={x(halfway[0]) - 14}
          y={y(halfway[1]) + 34}
          textAnchor="end"
        >
          measured
        </text>
      )}
      {first !== undefined && last !== undefined && <Tilt {...{ x, y, first, last }} />}
      {labels.map(({ key, text, y: at }) => (
        <text
          key={key}
          className={`label span-picture__label--${key}`}
          x={right}
          y={at + 5}
          xmlSpace="preserve"
        >
          {text}
        </text>
      ))}
    </svg>
  );
}

type Scale = (value: number) => number;
type TiltProps = Readonly<{
  x: Scale;
  y: Scale;
  first: readonly [number, number];
  last: readonly [number, number];
}>;

/** The tilt as a measure: from what the low end loses down to what the high end loses. */
const Tilt = ({ x, y, first, last }: TiltProps) => {
  const at = x(last[0]) - 44;
  const [from, to] = [y(first[1]), y(last[1])];
  return (
    <g className="span-picture__tilt">
      <line x1={x(first[0])} x2={at + 12} y1={from} y2={from} className="span-picture__level" />
      <line x1={at} x2={at} y1={from + 2} y2={to - 4} />
      <path d={`M${at - 6} ${to - 12}L${at} ${to - 3}L${at + 6} ${to - 12}`} />
      <line x1={at - 12} x2={x(last[0])} y1={to} y2={to} className="span-picture__level" />
      <text className="label span-picture__words" x={at - 12} y={(from + to) / 2} textAnchor="end">
        {`tilt ${oneDecimal(last[1] - first[1])} dB`}
      </text>
    </g>
  );
};

/** The paper between the coldest and the hottest day. */
function seasonOf(curves: readonly SpanCurve[], x: Scale, y: Scale): string {
  const of = (key: SpanCurve['key']) => curves.find((curve) => curve.key === key)?.points ?? [];
  const around = [...of('cold'), ...of('hot').toReversed()];
  return around.length === 0 ? '' : `${lineOf(around.map(([mhz, lossDb]) => [x(mhz), y(lossDb)]))}Z`;
}
