import { axisUnitAt } from './scale.ts';

export type AxisUnitProps = Readonly<{ unit: string; x: number; y: number }>;

/** The unit over the numbers of a vertical axis. */
export function AxisUnit({ unit, x, y }: AxisUnitProps) {
  const at = axisUnitAt(unit, x);
  return (
    <text className="tick tick--unit" x={at.x} y={y} textAnchor={at.anchor}>
      {unit}
    </text>
  );
}
