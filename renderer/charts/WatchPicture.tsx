import { useRef } from 'react';
import { bareMhz } from '../format.ts';
import { apart, type PlotBox, type Span, ticksOf, xAt, yAt } from './scale.ts';
import { useSize } from './use-size.ts';

export type DriftLine = Readonly<{
  frequencyMhz: number;
  isPilot: boolean;
  /** dB from the first reading; null where there was none. */
  points: readonly Readonly<{ key: number; at: number; db: number | null }>[];
}>;
export type DriftGap = Readonly<{ from: number; to: number; words: string }>;

export type WatchPictureProps = Readonly<{
  lines: readonly DriftLine[];
  gaps: readonly DriftGap[];
  /** Of the axis below: time in ms, or temperature in the unit that is shown. */
  axis: Readonly<{ span: Span; ticks: readonly Readonly<{ at: number; words: string }>[]; unit: string }>;
  /** Joined by lines over time; over temperature only dots. */
  joined: boolean;
  title: string;
}>;

const LEFT = 52;
const RIGHT = 104;
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

/** How the levels of a watch went, each from its own first reading. */
export function WatchPicture({ lines, gaps, axis, joined, title }: WatchPictureProps) {
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  const levels = rangeOf(lines);
  const plot: PlotBox | null =
    size === null
      ? null
      : {
          left: LEFT,
          right: Math.max(LEFT + 1, size.width - RIGHT),
          top: 26,
          bottom: Math.max(27, size.height - 34),
        };
  return (
    <div ref={box} className="picture">
      {size !== null && plot !== null && (
        <svg width={size.width} height={size.height} role="img" aria-label={title} className="drift">
          <text className="tick tick--unit" x={LEFT - 8} y={14} textAnchor="end">
            dB
          </text>
          <text className="tick tick--unit" x={LEFT + 4} y={14}>
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
          {gaps.map(({ from, to, words }) => {
            const x = xAt(plot, axis.span, Math.max(axis.span.low, from));
            const width = Math.max(2, xAt(plot, axis.span, Math.min(axis.span.high, to)) - x);
            return (
              <g key={from}>
                <rect
                  className="drift__gap"
                  x={x}
                  width={width}
                  y={plot.top}
                  height={plot.bottom - plot.top}
                />
                {width > 50 && (
                  <text className="tick tick--unit" x={x + width / 2} y={plot.top + 18} textAnchor="middle">
                    {words}
                  </text>
                )}
              </g>
            );
          })}
          {lines.map((line) =>
            joined
              ? stretches(line, gaps).map((part) => (
                  <polyline
                    key={`${line.frequencyMhz} ${part[0]?.at}`}
                    className={line.isPilot ? 'drift__line drift__line--pilot' : 'drift__line'}
                    points={[...part, ...(part.length === 1 ? part : [])]
                      .map(
                        ({ at, db }, i) =>
                          `${(xAt(plot, axis.span, at) + i * 0.01).toFixed(2)},${yAt(plot, levels, db).toFixed(1)}`,
                      )
                      .join(' ')}
                  />
                ))
              : line.points.map(({ key, at, db }) =>
                  db === null ? null : (
                    <circle
                      key={`${line.frequencyMhz} ${key}`}
                      className={line.isPilot ? 'drift__dot drift__dot--pilot' : 'drift__dot'}
                      cx={xAt(plot, axis.span, at)}
                      cy={yAt(plot, levels, db)}
                      r={line.isPilot ? 4.5 : 3}
                    />
                  ),
                ),
          )}
          {apart(
            lines.flatMap((line) => {
              const last = line.points.findLast(({ db }) => db !== null);
              if (last === undefined || last.db === null) return [];
              const name = `${bareMhz(line.frequencyMhz)}${line.isPilot ? ' pilot' : ''}`;
              return [{ key: name, text: name, x: plot.right + 10, y: yAt(plot, levels, last.db) }];
            }),
            18,
            plot,
          ).map(({ key, text, x, y }) => (
            <text
              key={key}
              className={text.endsWith('pilot') ? 'label label--found' : 'label'}
              x={x}
              y={y + 5}
            >
              {text}
            </text>
          ))}
          {axis.ticks.map(({ at, words }) => (
            <g key={at}>
              <line
                className="strip__tick"
                x1={xAt(plot, axis.span, at)}
                x2={xAt(plot, axis.span, at)}
                y1={plot.bottom + 3}
                y2={plot.bottom + 9}
              />
              <text className="tick" x={xAt(plot, axis.span, at)} y={plot.bottom + 25} textAnchor="middle">
                {words}
              </text>
            </g>
          ))}
          <text className="tick tick--unit" x={plot.right + 14} y={plot.bottom + 25}>
            {axis.unit}
          </text>
        </svg>
      )}
    </div>
  );
}
