import { useId } from 'react';
import { bareMhz, mhz as mhzWords, oneDecimal } from '../format.ts';
import { Crosshair } from './Crosshair.tsx';
import type { SpanCurve, SpanPictureProps } from './SpanPicture.tsx';
import { apart, type PlotBox, type Span, ticksOf, xAt, yAt } from './scale.ts';
import { type SpanRow, spanValues } from './span-values.ts';

const LABEL_GAP = 20;

const lineOf = (points: readonly (readonly [number, number])[]): string =>
  points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`).join('');

export type SpanDrawingProps = Pick<SpanPictureProps, 'curves' | 'measured'> &
  Readonly<{
    plot: PlotBox;
    /** The part of the band that is looked at. */
    view: Span;
    /** What the crosshair stands on; null where it is nowhere. */
    row: SpanRow | null;
    width: number;
    height: number;
  }>;

/** The loss of a span on three days, what was measured of it, and its tilt. */
export function SpanDrawing({ curves, measured, plot, view, row, width, height }: SpanDrawingProps) {
  const clip = useId();
  const most = Math.max(
    ...[...curves.flatMap(({ points }) => points), ...measured].map(([, lossDb]) => lossDb),
  );
  // Losses hang down: the span of the axis is turned about.
  const span = { low: Math.ceil((most + 0.5) / 2) * 2, high: 0 };
  const x = (mhz: number) => xAt(plot, view, mhz);
  const y = (lossDb: number) => yAt(plot, span, lossDb);
  const right = plot.right + 12;
  const now = curves.find(({ key }) => key === 'now');
  const inView = now?.points.filter(([mhz]) => mhz >= view.low && mhz <= view.high) ?? [];
  const [first, last] = [inView[0], inView.at(-1)];
  const labels = apart(
    curves.flatMap(({ key, words, points }) => {
      const end = points.findLast(([mhz]) => mhz <= view.high);
      return end === undefined
        ? []
        : [{ key, text: `${oneDecimal(end[1])}  ${words}`, x: right, y: y(end[1]) }];
    }),
    LABEL_GAP,
    plot,
  );
  const seen = measured.filter(([mhz]) => mhz >= view.low && mhz <= view.high);
  const halfway = seen[Math.floor(seen.length / 2)];
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
      {ticksOf(view, 10).map((mhz) => (
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
      <clipPath id={clip}>
        <rect x={plot.left} y={plot.top} width={plot.right - plot.left} height={plot.bottom - plot.top + 4} />
      </clipPath>
      <g clipPath={`url(#${clip})`}>
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
      </g>
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
      {row !== null && row.mhz >= view.low && row.mhz <= view.high && (
        <Crosshair
          at={x(row.mhz)}
          plot={plot}
          bottom={plot.bottom}
          where={mhzWords(row.mhz)}
          lines={spanValues(row, curves)}
          marks={[
            ...(row.now === null ? [] : [{ key: 'now', y: y(row.now), shape: 'round' as const }]),
            ...(row.measured === null
              ? []
              : [{ key: 'measured', y: y(row.measured), shape: 'square' as const }]),
          ]}
          behind={inView.map(([mhz, lossDb]) => ({ x: x(mhz), y: y(lossDb) }))}
        />
      )}
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
