import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { bareLevel, bareMhz, levelWord, mhz, signedDb, signedDecimal } from '../format.ts';
import type { ChartRow } from './rows.ts';
import { AXIS_HEIGHT, apart, type Label, levelPlot, type Span, xAt, yAt } from './scale.ts';

export type EndLabel = Readonly<{
  key: 'design' | 'predicted' | 'before' | 'shown';
  text: string;
  ink: string;
}>;

export type ChartOverlayProps = Readonly<{
  rows: readonly ChartRow[];
  width: number;
  levelHeight: number;
  height: number;
  frequencySpan: Span;
  levelSpan: Span;
  labels: readonly EndLabel[];
  worstMhz: number | null;
  cursorMhz: number | null;
  shownWord: string;
  unit: LevelUnitName;
}>;

const levelOf = (row: ChartRow, key: EndLabel['key']): number | null => {
  switch (key) {
    case 'design':
      return row.targetDbmv;
    case 'predicted':
      return row.predictedDbmv;
    case 'before':
      return row.foundDbmv;
    case 'shown':
      return row.shownDbmv;
  }
};

/** One line of what stands under the cursor, for the eye and for the screen reader. */
export const cursorWords = (row: ChartRow, shownWord: string, unit: LevelUnitName): string => {
  const parts = [mhz(row.frequencyMhz)];
  if (row.shownDbmv !== null) parts.push(`${shownWord} ${bareLevel(row.shownDbmv, unit)}`);
  else if (row.silent) parts.push('no level');
  if (row.targetDbmv !== null) parts.push(`design ${bareLevel(row.targetDbmv, unit)}`);
  if (row.deviationDb !== null) parts.push(signedDb(row.deviationDb));
  if (row.signal !== null && row.signal !== 'unknown kind') parts.push(row.signal);
  return parts.join('   ');
};

/** What is written on the drawing: names at the line ends, the worst channel, silent channels, and the cursor. */
export function ChartOverlay(props: ChartOverlayProps) {
  const { rows, width, levelHeight, frequencySpan, levelSpan } = props;
  const plot = levelPlot(width, levelHeight);
  const x = (frequencyMhz: number) => xAt(plot, frequencySpan, frequencyMhz);
  const y = (levelDbmv: number) => yAt(plot, levelSpan, levelDbmv);
  const ends: Label[] = props.labels.flatMap(({ key, text }) => {
    const last = rows.findLast((row) => levelOf(row, key) !== null);
    const value = last === undefined ? null : levelOf(last, key);
    if (last === undefined || value === null) return [];
    // A line that ends early carries its name where it ends, not across an empty chart.
    const early = x(last.frequencyMhz) < plot.right - 80;
    return [{ key, text, x: early ? x(last.frequencyMhz) + 10 : plot.right + 12, y: y(value) }];
  });
  const inks = new Map<string, string>(props.labels.map(({ key, ink }) => [key, ink]));
  const worst = props.worstMhz === null ? undefined : rows.find((row) => row.frequencyMhz === props.worstMhz);
  const cursor =
    props.cursorMhz === null ? undefined : rows.find((row) => row.frequencyMhz === props.cursorMhz);
  const bottom = props.height - AXIS_HEIGHT;
  return (
    <svg className="overlay" width={width} height={props.height} aria-hidden="true">
      <text className="tick tick--unit" x={plot.left - 8} y={14} textAnchor="end">
        {levelWord(props.unit)}
      </text>
      {rows.map((row) =>
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
      {worst !== undefined && <Worst row={worst} x={x} y={y} plot={plot} />}
      {apart(ends, 21, plot).map((label) => (
        <text key={label.key} className={`label label--${inks.get(label.key)}`} x={label.x} y={label.y + 5}>
          {label.text}
        </text>
      ))}
      {cursor !== undefined && (
        <g>
          <line
            className="cursor"
            x1={x(cursor.frequencyMhz)}
            x2={x(cursor.frequencyMhz)}
            y1={plot.top}
            y2={bottom}
          />
          <text className="cursor__words" x={plot.left + 4} y={15}>
            {cursorWords(cursor, props.shownWord, props.unit)}
          </text>
        </g>
      )}
    </svg>
  );
}

type WorstProps = Readonly<{
  row: ChartRow;
  x: (frequencyMhz: number) => number;
  y: (levelDbmv: number) => number;
  plot: { left: number; right: number };
}>;

/** The worst channel: a bracket from the design to the level, with the distance written on it. */
function Worst({ row, x, y, plot }: WorstProps) {
  if (row.shownDbmv === null || row.targetDbmv === null || row.deviationDb === null) return null;
  const at = x(row.frequencyMhz);
  const level = y(row.shownDbmv);
  const target = y(row.targetDbmv);
  const below = row.deviationDb < 0;
  // A design mostly rises: under the line there is room to the right, over it to the left; at an edge, farther away.
  const wanted = below ? at < plot.right - 120 : at < plot.left + 120;
  const away = wanted === below ? 24 : 44;
  const beside = wanted ? at + 8 : at - 8;
  return (
    <g className="worst">
      <line x1={at} x2={at} y1={target} y2={level} />
      <circle cx={at} cy={level} r={4.5} />
      <text
        x={beside}
        y={below ? Math.max(level, target) + away : Math.min(level, target) - away + 12}
        textAnchor={wanted ? 'start' : 'end'}
      >
        {signedDecimal(row.deviationDb)}
        <tspan className="worst__where" dx={6}>{`at ${bareMhz(row.frequencyMhz)}`}</tspan>
      </text>
    </g>
  );
}
