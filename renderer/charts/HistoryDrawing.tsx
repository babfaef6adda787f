import { useId } from 'react';
import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import type { Design } from '../../core/files/station.ts';
import { targetDbmv } from '../../core/line/design-line.ts';
import { levelWord, mhz as mhzWords } from '../format.ts';
import { Crosshair, type CrossLine } from './Crosshair.tsx';
import { LevelGrid } from './LevelGrid.tsx';
import { levelTicks } from './level-ticks.ts';
import type { DrawnSweep, OverlaidRow } from './overlaid-values.ts';
import { apart, levelSpan, type PlotBox, type Span, ticksOf, xAt, yAt } from './scale.ts';

export type HistoryDrawingProps = Readonly<{
  drawn: readonly DrawnSweep[];
  design: Design | null;
  unit: LevelUnitName;
  plot: PlotBox;
  /** The part of the band that is looked at. */
  view: Span;
  /** What the crosshair stands on; null where it is nowhere. */
  row: OverlaidRow | null;
  lines: readonly CrossLine[];
  width: number;
  height: number;
}>;

/** The design's band is bent by its shape: drawn in so many steps. */
const BAND_STEPS = 40;
const LABEL_GAP = 18;

export function HistoryDrawing(props: HistoryDrawingProps) {
  const { drawn, design, unit, plot, view, row, lines, width, height } = props;
  const clip = useId();
  const tolerance = design?.toleranceDb ?? 0;
  const band =
    design === null
      ? []
      : Array.from({ length: BAND_STEPS + 1 }, (_, i) => {
          const mhz = design.lowMhz + (i / BAND_STEPS) * (design.highMhz - design.lowMhz);
          return { mhz, db: targetDbmv(design, mhz) };
        });
  const levels = levelSpan([
    ...drawn.flatMap(({ read }) => read.map(({ levelDbmv }) => levelDbmv)),
    ...band.flatMap(({ db }) => [db - tolerance, db + tolerance]),
  ]);
  const x = (frequencyMhz: number) => xAt(plot, view, frequencyMhz);
  const y = (levelDbmv: number) => yAt(plot, levels, levelDbmv);
  const edge = (sign: 1 | -1) => band.map(({ mhz, db }) => `${x(mhz)},${y(db + sign * tolerance)}`);
  const newest = drawn.at(-1);
  const oldest = drawn.length > 1 ? drawn[0] : undefined;
  const labels = apart(
    [oldest, newest].flatMap((sweep) => {
      const last = sweep?.read.findLast(({ frequencyMhz }) => frequencyMhz <= view.high);
      return sweep === undefined || last === undefined
        ? []
        : [{ key: sweep.sweepId, text: sweep.label, x: plot.right + 8, y: y(last.levelDbmv) + 5 }];
    }),
    LABEL_GAP,
    plot,
  );
  const grid = levelTicks(levels, unit, Math.max(3, (plot.bottom - plot.top) / 44)).map(
    ({ levelDbmv, text }) => ({ y: y(levelDbmv), text }),
  );
  const now = row?.levelsDbmv.at(-1) ?? null;
  return (
    <svg className="overlay" width={width} height={height} aria-hidden="true">
      <clipPath id={clip}>
        <rect x={plot.left} y={plot.top} width={plot.right - plot.left} height={plot.bottom - plot.top} />
      </clipPath>
      {band.length > 0 && (
        <polygon
          className="history__band"
          clipPath={`url(#${clip})`}
          points={[...edge(1), ...edge(-1).reverse()].join(' ')}
        />
      )}
      <LevelGrid plot={plot} unit={levelWord(unit)} lines={grid} />
      <g clipPath={`url(#${clip})`}>
        {drawn.map(({ sweepId, read }, i) => (
          <polyline
            key={sweepId}
            className={`history__sweep history__sweep--${ageOf(drawn.length - 1 - i)}`}
            points={read
              .map(
                ({ frequencyMhz, levelDbmv }) => `${x(frequencyMhz).toFixed(1)},${y(levelDbmv).toFixed(1)}`,
              )
              .join(' ')}
          />
        ))}
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
          marks={now === null ? [] : [{ key: 'newest', y: y(now), shape: 'round' }]}
          behind={(newest?.read ?? []).map(({ frequencyMhz, levelDbmv }) => ({
            x: x(frequencyMhz),
            y: y(levelDbmv),
          }))}
        />
      )}
    </svg>
  );
}

/** Frequencies under a drawing. */
export const BandAxis = ({ plot, view, height }: Readonly<{ plot: PlotBox; view: Span; height: number }>) => (
  <>
    {ticksOf(view, Math.max(3, (plot.right - plot.left) / 90)).map((mhz) => (
      <text key={mhz} className="tick" x={xAt(plot, view, mhz)} y={height - 8} textAnchor="middle">
        {mhz}
      </text>
    ))}
    <text className="tick tick--unit" x={plot.right + 8} y={height - 8}>
      MHz
    </text>
  </>
);

/** How old a line is drawn: by weight alone, so that none falls below the contrast of text. */
function ageOf(back: number): 'newest' | 'recent' | 'older' {
  if (back === 0) return 'newest';
  return back <= 3 ? 'recent' : 'older';
}
