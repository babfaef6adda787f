import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { bareMhz, levelWord, signedDecimal } from '../format.ts';
import { AxisUnit } from './AxisUnit.tsx';
import type { SeriesNames } from './cursor-values.ts';
import { type EndLabel, placedEnds } from './end-labels.ts';
import { Readout } from './Readout.tsx';
import type { ChartRow } from './rows.ts';
import { AXIS_HEIGHT, LABEL_WIDTH, levelPlot, type PlotBox, type Span, xAt, yAt } from './scale.ts';

export type ChartOverlayProps = Readonly<{
  /** What is in the view, and one beyond each of its ends. */
  rows: readonly ChartRow[];
  width: number;
  levelHeight: number;
  height: number;
  frequencySpan: Span;
  levelSpan: Span;
  labels: readonly EndLabel[];
  /** Written over the plot where two of them stand side by side. */
  heading: string;
  labelWidth?: number;
  worstMhz: number | null;
  cursor: ChartRow | null;
  withCard: boolean;
  names: SeriesNames;
  unit: LevelUnitName;
}>;

/** What is written on the drawing: names at the line ends, the worst channel, silent channels, and the crosshair. */
export function ChartOverlay(props: ChartOverlayProps) {
  const { rows, width, levelHeight, frequencySpan, levelSpan, labelWidth = LABEL_WIDTH, cursor } = props;
  const plot = levelPlot(width, levelHeight, labelWidth);
  const x = (frequencyMhz: number) => xAt(plot, frequencySpan, frequencyMhz);
  const y = (levelDbmv: number) => yAt(plot, levelSpan, levelDbmv);
  const inks = new Map<string, string>(props.labels.map(({ key, ink }) => [key, ink]));
  const seen = rows.filter(
    ({ frequencyMhz }) => frequencyMhz >= frequencySpan.low && frequencyMhz <= frequencySpan.high,
  );
  const worst = seen.find((row) => row.frequencyMhz === props.worstMhz);
  const lastRead = seen.findLast(({ shownDbmv }) => shownDbmv !== null);
  return (
    <svg className="overlay" width={width} height={props.height} aria-hidden="true">
      <AxisUnit unit={levelWord(props.unit)} x={plot.left - 8} y={14} />
      {props.heading !== '' && (
        <text className="label" x={plot.left + 4} y={15}>
          {props.heading}
        </text>
      )}
      {seen.map((row) =>
        row.silent ? (
          <g
            key={row.frequencyMhz}
            className="silent"
            transform={`translate(${x(row.frequencyMhz)} ${plot.bottom - 8})`}
          >
            <path d="M-4 -4 4 4M4 -4-4 4" />
          </g>
        ) : null,
      )}
      {worst !== undefined && <Worst row={worst} x={x} y={y} plot={plot} isLast={worst === lastRead} />}
      {labelWidth === LABEL_WIDTH &&
        placedEnds(rows, props.labels, plot, frequencySpan, levelSpan).map((label) => (
          <text key={label.key} className={`label label--${inks.get(label.key)}`} x={label.x} y={label.y + 5}>
            {label.text}
          </text>
        ))}
      {cursor !== null &&
        cursor.frequencyMhz >= frequencySpan.low &&
        cursor.frequencyMhz <= frequencySpan.high && (
          <Readout
            row={cursor}
            rows={seen}
            plot={plot}
            bottom={props.height - AXIS_HEIGHT}
            x={x}
            y={y}
            names={props.names}
            unit={props.unit}
            withCard={props.withCard}
          />
        )}
    </svg>
  );
}

type WorstProps = Readonly<{
  row: ChartRow;
  x: (frequencyMhz: number) => number;
  y: (levelDbmv: number) => number;
  plot: PlotBox;
  /** Where the line ends, its name stands beside its last level. */
  isLast: boolean;
}>;

/** The worst channel: a bracket from the design to the level, with the distance written on it. */
function Worst({ row, x, y, plot, isLast }: WorstProps) {
  if (row.shownDbmv === null || row.targetDbmv === null || row.deviationDb === null) return null;
  const at = x(row.frequencyMhz);
  const level = y(row.shownDbmv);
  const target = y(row.targetDbmv);
  const below = row.deviationDb < 0;
  // A design mostly rises: under the line there is room to the right, over it to the left; at an edge, farther away.
  const wanted = below ? at < plot.right - 120 : at < plot.left + 120;
  const away = wanted === below && !isLast ? 24 : 44;
  const beside = wanted ? at + 8 : at - 8;
  const words = below ? Math.max(level, target) + away : Math.min(level, target) - away + 12;
  return (
    <g className="worst">
      <line x1={at} x2={at} y1={target} y2={level} />
      <circle cx={at} cy={level} r={4.5} />
      <text
        x={beside}
        y={Math.min(plot.bottom - 6, Math.max(plot.top + 18, words))}
        textAnchor={wanted ? 'start' : 'end'}
      >
        {signedDecimal(row.deviationDb)}
        <tspan className="worst__where" dx={6}>{`at ${bareMhz(row.frequencyMhz)}`}</tspan>
      </text>
    </g>
  );
}
