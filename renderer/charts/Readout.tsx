import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { mhz } from '../format.ts';
import { cursorValues, type SeriesNames } from './cursor-values.ts';
import { levelOf } from './end-labels.ts';
import type { ChartRow } from './rows.ts';
import type { PlotBox } from './scale.ts';

export type ReadoutProps = Readonly<{
  row: ChartRow;
  rows: readonly ChartRow[];
  plot: PlotBox;
  /** The foot of the crosshair, under the strip. */
  bottom: number;
  x: (frequencyMhz: number) => number;
  y: (levelDbmv: number) => number;
  names: SeriesNames;
  unit: LevelUnitName;
  /** False where a drawing beside this one has the card. */
  withCard: boolean;
}>;

const WIDTH = 186;
const LINE = 21;
const ASIDE = 14;
const marks = { shown: 'M-5 0a5 5 0 1 0 10 0 5 5 0 1 0-10 0Z', before: 'M-4.5-4.5h9v9h-9Z' } as const;

/** The crosshair: a line through one channel, a mark on each level, and a card with every value, where it hides least. */
export function Readout({ row, rows, plot, bottom, x, y, names, unit, withCard }: ReadoutProps) {
  const at = x(row.frequencyMhz);
  const values = cursorValues(row, names, unit);
  const height = LINE * (values.length + 1) + 14;
  const rightward = at + ASIDE + WIDTH < plot.right || at - ASIDE - WIDTH < plot.left;
  const left = Math.max(plot.left, Math.min(plot.right - WIDTH, rightward ? at + ASIDE : at - ASIDE - WIDTH));
  // The card stands where fewer of the lines run behind it.
  const behind = rows.flatMap((other) => {
    const across = x(other.frequencyMhz);
    if (across < left || across > left + WIDTH) return [];
    return (['shown', 'before', 'predicted', 'design'] as const).flatMap((key) => levelOf(other, key) ?? []);
  });
  const mean = behind.reduce((sum, levelDbmv) => sum + y(levelDbmv), 0) / Math.max(1, behind.length);
  const high = behind.length > 0 && mean < (plot.top + plot.bottom) / 2;
  const top = high ? Math.max(plot.top, plot.bottom - height - 4) : plot.top + 4;
  return (
    <g className="readout">
      <line className="cursor" x1={at} x2={at} y1={plot.top} y2={bottom} />
      {values.map(({ key, levelDbmv }) =>
        levelDbmv !== null && (key === 'shown' || key === 'before') ? (
          <path
            key={key}
            className={`readout__mark readout__mark--${key}`}
            transform={`translate(${at} ${y(levelDbmv)})`}
            d={marks[key]}
          />
        ) : null,
      )}
      {withCard && (
        <g transform={`translate(${left} ${top})`}>
          <rect className="readout__card" width={WIDTH} height={height} rx={6} />
          <text className="readout__where" x={12} y={LINE + 1}>
            {mhz(row.frequencyMhz)}
          </text>
          {values.map(({ key, name, text }, i) => (
            <g key={key} transform={`translate(0 ${LINE * (i + 2) + 2})`}>
              <text className="readout__name" x={12}>
                {name}
              </text>
              <text className="readout__value" x={WIDTH - 12} textAnchor="end">
                {text}
              </text>
            </g>
          ))}
        </g>
      )}
    </g>
  );
}
