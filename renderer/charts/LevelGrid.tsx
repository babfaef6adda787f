import { AxisUnit } from './AxisUnit.tsx';
import type { PlotBox } from './scale.ts';

export type LevelGridProps = Readonly<{
  plot: PlotBox;
  /** What the numbers at the lines are in. */
  unit: string;
  /** Where each line lies, px from the top, and its number. */
  lines: readonly Readonly<{ y: number; text: string }>[];
}>;

/** The lines across a drawing, each with its number at the left, and over them the unit. */
export const LevelGrid = ({ plot, unit, lines }: LevelGridProps) => (
  <>
    {lines.map(({ y, text }) => (
      <g key={text} className="level-chart__grid">
        <line x1={plot.left} x2={plot.right} y1={y} y2={y} />
        <text className="tick" x={plot.left - 10} y={y + 5} textAnchor="end">
          {text}
        </text>
      </g>
    ))}
    <AxisUnit unit={unit} x={plot.left - 10} y={plot.top - 10} />
  </>
);
