import { useId } from 'react';
import type { ComparedRow } from '../../core/drift/compare-sweeps.ts';
import { mhz as mhzWords, signedDecimal } from '../format.ts';
import { Crosshair, type CrossLine } from './Crosshair.tsx';
import { BandAxis } from './HistoryDrawing.tsx';
import { LevelGrid } from './LevelGrid.tsx';
import { apart, type PlotBox, type Span, ticksOf, xAt, yAt } from './scale.ts';

type Both = ComparedRow & Readonly<{ differenceDb: number }>;

export type CompareDrawingProps = Readonly<{
  /** Channels that both sweeps read, in rising MHz. */
  both: readonly Both[];
  plot: PlotBox;
  view: Span;
  /** What the crosshair stands on; null where it is nowhere. */
  row: Both | null;
  lines: readonly CrossLine[];
  width: number;
  height: number;
}>;

const LABEL_GAP = 18;

export function CompareDrawing({ both, plot, view, row, lines, width, height }: CompareDrawingProps) {
  const clip = useId();
  const most = Math.max(
    1,
    ...both.map(({ differenceDb, weatherDb }) => Math.max(Math.abs(differenceDb), Math.abs(weatherDb ?? 0))),
  );
  const levels = { low: -most * 1.15, high: most * 1.15 };
  const x = (frequencyMhz: number) => xAt(plot, view, frequencyMhz);
  const y = (db: number) => yAt(plot, levels, db);
  const weather = both.flatMap(({ frequencyMhz, weatherDb }) =>
    weatherDb === null ? [] : [`${x(frequencyMhz).toFixed(1)},${y(weatherDb).toFixed(1)}`],
  );
  const last = both.findLast(({ frequencyMhz }) => frequencyMhz <= view.high);
  const named = (key: string, text: string, db: number | null | undefined) =>
    db == null ? [] : [{ key, text, x: plot.right + 8, y: y(db) + 5 }];
  const labels = apart(
    [
      ...named('difference', 'difference', last?.differenceDb),
      ...named('weather', 'by the weather', last?.weatherDb),
    ],
    LABEL_GAP,
    plot,
  );
  const grid = ticksOf(levels, Math.max(3, (plot.bottom - plot.top) / 40)).map((db) => ({
    y: y(db),
    text: signedDecimal(db),
  }));
  return (
    <svg className="overlay" width={width} height={height} aria-hidden="true">
      <LevelGrid plot={plot} unit="dB" lines={grid} />
      <line className="control__center" x1={plot.left} x2={plot.right} y1={y(0)} y2={y(0)} />
      <clipPath id={clip}>
        <rect x={plot.left} y={plot.top} width={plot.right - plot.left} height={plot.bottom - plot.top} />
      </clipPath>
      <g clipPath={`url(#${clip})`}>
        {weather.length > 1 && <polyline className="compare__weather" points={weather.join(' ')} />}
        <polyline
          className="history__sweep history__sweep--newest"
          points={both
            .map(
              ({ frequencyMhz, differenceDb }) =>
                `${x(frequencyMhz).toFixed(1)},${y(differenceDb).toFixed(1)}`,
            )
            .join(' ')}
        />
      </g>
      {labels.map(({ key, text, x: at, y: down }) => (
        <text key={key} className="control__label" x={at} y={down}>
          {text}
        </text>
      ))}
      <BandAxis plot={plot} view={view} height={height} />
      {row !== null && row.frequencyMhz >= view.low && row.frequencyMhz <= view.high && (
        <Crosshair
          at={x(row.frequencyMhz)}
          plot={plot}
          bottom={plot.bottom}
          where={mhzWords(row.frequencyMhz)}
          lines={lines}
          marks={[{ key: 'difference', y: y(row.differenceDb), shape: 'round' }]}
          behind={both.map(({ frequencyMhz, differenceDb }) => ({ x: x(frequencyMhz), y: y(differenceDb) }))}
        />
      )}
    </svg>
  );
}
