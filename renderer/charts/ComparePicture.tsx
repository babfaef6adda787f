import { useRef } from 'react';
import type { ComparedRow } from '../../core/drift/compare-sweeps.ts';
import { signedDecimal } from '../format.ts';
import {
  AXIS_HEIGHT,
  AXIS_WIDTH,
  apart,
  LABEL_WIDTH,
  type PlotBox,
  TOP_SPACE,
  ticksOf,
  xAt,
  yAt,
} from './scale.ts';
import { useSize } from './use-size.ts';

export type ComparePictureProps = Readonly<{ title: string; rows: readonly ComparedRow[] }>;

/** The difference of two sweeps over the band, and what the temperatures explain of it. */
export function ComparePicture(props: ComparePictureProps) {
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  return (
    <div ref={box} className="history-picture">
      {size !== null && size.width > AXIS_WIDTH + LABEL_WIDTH && size.height > 80 && (
        <Drawing {...props} width={size.width} height={size.height} />
      )}
    </div>
  );
}

function Drawing({
  title,
  rows,
  width,
  height,
}: ComparePictureProps & Readonly<{ width: number; height: number }>) {
  const plot: PlotBox = {
    left: AXIS_WIDTH,
    right: width - LABEL_WIDTH,
    top: TOP_SPACE,
    bottom: height - AXIS_HEIGHT,
  };
  const both = rows.flatMap(({ frequencyMhz, differenceDb, weatherDb }) =>
    differenceDb === null ? [] : [{ frequencyMhz, differenceDb, weatherDb }],
  );
  const last = both.at(-1);
  if (last === undefined) return null;
  const span = {
    low: both[0]?.frequencyMhz ?? 0,
    high: Math.max(last.frequencyMhz, (both[0]?.frequencyMhz ?? 0) + 1),
  };
  const reach =
    Math.max(
      1,
      ...both.map(({ differenceDb, weatherDb }) =>
        Math.max(Math.abs(differenceDb), Math.abs(weatherDb ?? 0)),
      ),
    ) * 1.15;
  const levels = { low: -reach, high: reach };
  const x = (frequencyMhz: number) => xAt(plot, span, frequencyMhz);
  const y = (db: number) => yAt(plot, levels, db);
  const weather = both.flatMap(({ frequencyMhz, weatherDb }) =>
    weatherDb === null ? [] : [`${x(frequencyMhz)},${y(weatherDb)}`],
  );
  const labels = apart(
    [
      { key: 'difference', text: 'difference', x: plot.right + 8, y: y(last.differenceDb) + 5 },
      ...(last.weatherDb === null
        ? []
        : [{ key: 'weather', text: 'by the weather', x: plot.right + 8, y: y(last.weatherDb) + 5 }]),
    ],
    18,
    plot,
  );
  return (
    <svg width={width} height={height} role="img" aria-label={title}>
      {ticksOf(levels, Math.max(3, (plot.bottom - plot.top) / 40)).map((db) => (
        <g key={db} className="level-chart__grid">
          <line x1={plot.left} x2={plot.right} y1={y(db)} y2={y(db)} />
          <text className="tick" x={plot.left - 10} y={y(db) + 5} textAnchor="end">
            {signedDecimal(db)}
          </text>
        </g>
      ))}
      <text className="tick tick--unit" x={plot.left - 10} y={TOP_SPACE - 10} textAnchor="end">
        dB
      </text>
      <line className="control__center" x1={plot.left} x2={plot.right} y1={y(0)} y2={y(0)} />
      {weather.length > 1 && <polyline className="compare__weather" points={weather.join(' ')} />}
      <polyline
        className="history__sweep history__sweep--newest"
        points={both
          .map(
            ({ frequencyMhz, differenceDb }) => `${x(frequencyMhz).toFixed(1)},${y(differenceDb).toFixed(1)}`,
          )
          .join(' ')}
      />
      {labels.map(({ key, text, x: at, y: down }) => (
        <text key={key} className="control__label" x={at} y={down}>
          {text}
        </text>
      ))}
      {ticksOf(span, Math.max(3, (plot.right - plot.left) / 90)).map((mhz) => (
        <text key={mhz} className="tick" x={x(mhz)} y={height - 8} textAnchor="middle">
          {mhz}
        </text>
      ))}
      <text className="tick tick--unit" x={plot.right + 8} y={height - 8}>
        MHz
      </text>
    </svg>
  );
}
