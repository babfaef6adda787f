import { useRef } from 'react';
import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import type { Design } from '../../core/files/station.ts';
import { targetDbmv } from '../../core/line/design-line.ts';
import type { LevelRow } from '../../core/line/level-row.ts';
import { bareLevel, levelWord } from '../format.ts';
import {
  AXIS_HEIGHT,
  AXIS_WIDTH,
  apart,
  LABEL_WIDTH,
  levelSpan,
  type PlotBox,
  TOP_SPACE,
  ticksOf,
  xAt,
  yAt,
} from './scale.ts';
import { useSize } from './use-size.ts';

/** A sweep of the overlay, the oldest first. */
export type OverlaidSweep = Readonly<{ sweepId: string; label: string; rows: readonly LevelRow[] }>;

export type HistoryPictureProps = Readonly<{
  title: string;
  sweeps: readonly OverlaidSweep[];
  design: Design | null;
  unit: LevelUnitName;
}>;

const points = (rows: readonly LevelRow[]) =>
  rows
    .flatMap(({ frequencyMhz, levelDbmv }) =>
      frequencyMhz === null || levelDbmv === null ? [] : [{ frequencyMhz, levelDbmv }],
    )
    .sort((a, b) => a.frequencyMhz - b.frequencyMhz);

/** The sweeps of a history over each other: the newest in full ink and weight, older ones ever thinner, with the design's band behind. */
export function HistoryPicture(props: HistoryPictureProps) {
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

type DrawingProps = HistoryPictureProps & Readonly<{ width: number; height: number }>;

function Drawing({ title, sweeps, design, unit, width, height }: DrawingProps) {
  const drawn = sweeps
    .map((sweep) => ({ ...sweep, read: points(sweep.rows) }))
    .filter(({ read }) => read.length > 0);
  const plot: PlotBox = {
    left: AXIS_WIDTH,
    right: width - LABEL_WIDTH,
    top: TOP_SPACE,
    bottom: height - AXIS_HEIGHT,
  };
  const all = drawn.flatMap(({ read }) => read);
  if (all.length === 0) return null;
  const edges = design === null ? [] : [design.lowMhz, design.highMhz];
  const mhzSpan = {
    low: Math.min(...edges, ...all.map(({ frequencyMhz }) => frequencyMhz)),
    high: Math.max(...edges, ...all.map(({ frequencyMhz }) => frequencyMhz)),
  };
  const band = design === null ? [] : edges.map((mhz) => ({ mhz, db: targetDbmv(design, mhz) }));
  const tolerance = design?.toleranceDb ?? 0;
  const levels = levelSpan([
    ...all.map(({ levelDbmv }) => levelDbmv),
    ...band.flatMap(({ db }) => [db - tolerance, db + tolerance]),
  ]);
  const x = (frequencyMhz: number) => xAt(plot, mhzSpan, frequencyMhz);
  const y = (levelDbmv: number) => yAt(plot, levels, levelDbmv);
  const steps =
    design === null
      ? []
      : Array.from({ length: 41 }, (_, i) => design.lowMhz + (i / 40) * (design.highMhz - design.lowMhz));
  const edge = (sign: 1 | -1) =>
    steps.map((mhz) => `${x(mhz)},${design === null ? 0 : y(targetDbmv(design, mhz) + sign * tolerance)}`);
  const newest = drawn.at(-1);
  const oldest = drawn.length > 1 ? drawn[0] : undefined;
  const labels = apart(
    [oldest, newest].flatMap((sweep) => {
      const last = sweep?.read.at(-1);
      return sweep === undefined || last === undefined
        ? []
        : [{ key: sweep.sweepId, text: sweep.label, x: plot.right + 8, y: y(last.levelDbmv) + 5 }];
    }),
    18,
    plot,
  );
  return (
    <svg width={width} height={height} role="img" aria-label={title}>
      {design !== null && (
        <polygon className="history__band" points={[...edge(1), ...edge(-1).reverse()].join(' ')} />
      )}
      {ticksOf(levels, Math.max(3, (plot.bottom - plot.top) / 44)).map((db) => (
        <g key={db} className="level-chart__grid">
          <line x1={plot.left} x2={plot.right} y1={y(db)} y2={y(db)} />
          <text className="tick" x={plot.left - 10} y={y(db) + 5} textAnchor="end">
            {bareLevel(db, unit)}
          </text>
        </g>
      ))}
      <text className="tick tick--unit" x={plot.left - 10} y={TOP_SPACE - 10} textAnchor="end">
        {levelWord(unit)}
      </text>
      {drawn.map(({ sweepId, read }, i) => (
        <polyline
          key={sweepId}
          className={`history__sweep history__sweep--${ageOf(drawn.length - 1 - i)}`}
          points={read
            .map(({ frequencyMhz, levelDbmv }) => `${x(frequencyMhz).toFixed(1)},${y(levelDbmv).toFixed(1)}`)
            .join(' ')}
        />
      ))}
      {labels.map(({ key, text, x: at, y: down }) => (
        <text key={key} className="control__label" x={at} y={down}>
          {text}
        </text>
      ))}
      {ticksOf(mhzSpan, Math.max(3, (plot.right - plot.left) / 90)).map((mhz) => (
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

/** How old a line is drawn: by weight alone, so that none falls below the contrast of text. */
function ageOf(back: number): 'newest' | 'recent' | 'older' {
  if (back === 0) return 'newest';
  return back <= 3 ? 'recent' : 'older';
}
