import { memo, useId, useMemo } from 'react';
import { Crosshair, type CrossLine, type CrossMark } from './Crosshair.tsx';
import { apart, type PlotBox, type Span, ticksOf, xAt, yAt } from './scale.ts';
import type { DriftGap, DriftLine, WatchPictureProps } from './WatchPicture.tsx';
import { lineName } from './watch-values.ts';

export type WatchDrawingProps = Pick<WatchPictureProps, 'lines' | 'gaps' | 'axis' | 'joined' | 'title'> &
  Readonly<{
    plot: PlotBox;
    view: Span;
    /** What the crosshair stands on, and what is there. */
    cursor: number | null;
    values: readonly CrossLine[];
    width: number;
    height: number;
  }>;

const LEAST_SPAN_DB = 4;

const rangeOf = (lines: readonly DriftLine[]): Span => {
  const all = lines.flatMap(({ points }) => points.flatMap(({ db }) => (db === null ? [] : [db])));
  const low = Math.floor(Math.min(0, ...all) - 0.3);
  const high = Math.ceil(Math.max(0, ...all) + 0.3);
  const missing = LEAST_SPAN_DB - (high - low);
  return missing <= 0
    ? { low, high }
    : { low: low - Math.ceil(missing / 2), high: high + Math.floor(missing / 2) };
};

/** Stretches between gaps; a line never runs over what was not read. */
function stretches(line: DriftLine, gaps: readonly DriftGap[]) {
  const parts: { at: number; db: number }[][] = [[]];
  let lastAt: number | null = null;
  for (const { at, db } of line.points) {
    const start = lastAt;
    const over = start !== null && gaps.some(({ from, to }) => from >= start && to <= at + 1 && from < at);
    if (db === null || over) parts.push([]);
    if (db !== null) {
      parts.at(-1)?.push({ at, db });
      lastAt = at;
    }
  }
  return parts.filter((part) => part.length > 0);
}
/** A mark on each line where the crosshair stands: round on the pilot, square on the others. */
const marksAt = (lines: readonly DriftLine[], cursor: number, y: (db: number) => number): CrossMark[] =>
  lines.flatMap((line) =>
    line.points.flatMap(({ key, at, db }) =>
      at !== cursor || db === null
        ? []
        : [
            {
              key: `${line.frequencyMhz} ${key}`,
              y: y(db),
              shape: line.isPilot ? ('round' as const) : ('square' as const),
            },
          ],
    ),
  );

type LinesProps = Pick<WatchDrawingProps, 'lines' | 'gaps' | 'joined' | 'plot' | 'view'> &
  Readonly<{ levels: Span }>;

/** Drawn once per change of data or view, not when only the crosshair moves. */
const Lines = memo(function Lines({ lines, gaps, joined, plot, view, levels }: LinesProps) {
  return lines.map((line) =>
    joined
      ? stretches(line, gaps).map((part) => (
          <polyline
            key={`${line.frequencyMhz} ${part[0]?.at}`}
            className={line.isPilot ? 'drift__line drift__line--pilot' : 'drift__line'}
            points={[...part, ...(part.length === 1 ? part : [])]
              .map(
                ({ at, db }, i) =>
                  `${(xAt(plot, view, at) + i * 0.01).toFixed(2)},${yAt(plot, levels, db).toFixed(1)}`,
              )
              .join(' ')}
          />
        ))
      : line.points.map(({ key, at, db }) =>
          db === null ? null : (
            <circle
              key={`${line.frequencyMhz} ${key}`}
              className={line.isPilot ? 'drift__dot drift__dot--pilot' : 'drift__dot'}
              cx={xAt(plot, view, at)}
              cy={yAt(plot, levels, db)}
              r={line.isPilot ? 4.5 : 3}
            />
          ),
        ),
  );
});

/** The lines of a watch, or its dots, over their axis. */
export function WatchDrawing(props: WatchDrawingProps) {
  const { lines, gaps, axis, joined, title, plot, view, cursor, values, width, height } = props;
  const levels = useMemo(() => rangeOf(lines), [lines]);
  const clip = useId();
  return (
    <svg width={width} height={height} aria-hidden="true">
      <clipPath id={clip}>
        <rect
          x={plot.left - 6}
          y={plot.top - 6}
          width={plot.right - plot.left + 12}
          height={plot.bottom - plot.top + 12}
        />
      </clipPath>
      <text className="tick tick--unit" x={plot.left - 8} y={14} textAnchor="end">
        dB
      </text>
      <text className="tick tick--unit" x={plot.left + 4} y={14}>
        {title}
      </text>
      {ticksOf(levels, 6).map((db) => (
        <g key={db}>
          <line
            className={db === 0 ? 'strip__zero' : 'drift__grid'}
            x1={plot.left}
            x2={plot.right}
            y1={yAt(plot, levels, db)}
            y2={yAt(plot, levels, db)}
          />
          <text className="tick" x={plot.left - 8} y={yAt(plot, levels, db) + 5} textAnchor="end">
            {db > 0 ? `+${db}` : String(db).replace('-', '\u2212')}
          </text>
        </g>
      ))}
      {gaps
        .filter(({ from, to }) => to > view.low && from < view.high)
        .map(({ from, to, words }) => {
          const x = xAt(plot, view, Math.max(view.low, from));
          const wide = Math.max(2, xAt(plot, view, Math.min(view.high, to)) - x);
          return (
            <g key={from}>
              <rect className="drift__gap" x={x} width={wide} y={plot.top} height={plot.bottom - plot.top} />
              {wide > 50 && (
                <text className="tick tick--unit" x={x + wide / 2} y={plot.top + 18} textAnchor="middle">
                  {words}
                </text>
              )}
            </g>
          );
        })}
      <g clipPath={`url(#${clip})`}>
        <Lines {...{ lines, gaps, joined, plot, view, levels }} />
      </g>
      {apart(
        lines.flatMap((line) => {
          const last = line.points.findLast(({ at, db }) => db !== null && at <= view.high);
          if (last === undefined || last.db === null) return [];
          const name = lineName(line);
          return [{ key: name, text: name, x: plot.right + 10, y: yAt(plot, levels, last.db) }];
        }),
        18,
        plot,
      ).map(({ key, text, x, y }) => (
        <text key={key} className={text.endsWith('pilot') ? 'label label--found' : 'label'} x={x} y={y + 5}>
          {text}
        </text>
      ))}
      {axis.ticksIn(view).map(({ at, words }) => (
        <g key={at}>
          <line
            className="strip__tick"
            x1={xAt(plot, view, at)}
            x2={xAt(plot, view, at)}
            y1={plot.bottom + 3}
            y2={plot.bottom + 9}
          />
          <text className="tick" x={xAt(plot, view, at)} y={plot.bottom + 25} textAnchor="middle">
            {words}
          </text>
        </g>
      ))}
      <text className="tick tick--unit" x={plot.right + 14} y={plot.bottom + 25}>
        {axis.unit}
      </text>
      {cursor !== null && cursor >= view.low && cursor <= view.high && (
        <Crosshair
          at={xAt(plot, view, cursor)}
          plot={plot}
          bottom={plot.bottom}
          where={axis.whereWords(cursor)}
          lines={values}
          marks={marksAt(lines, cursor, (db) => yAt(plot, levels, db))}
          behind={lines.flatMap(({ points }) =>
            points.flatMap(({ at, db }) =>
              db === null ? [] : [{ x: xAt(plot, view, at), y: yAt(plot, levels, db) }],
            ),
          )}
        />
      )}
    </svg>
  );
}
