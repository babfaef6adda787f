import type { ChartRow } from './rows.ts';
import type { ShownAs } from './SweepPanel.tsx';
import { type PlotBox, type Span, xAt, yAt } from './scale.ts';

export type MovingTraceProps = Readonly<{
  rows: readonly ChartRow[];
  plot: PlotBox;
  frequencySpan: Span;
  levelSpan: Span;
  width: number;
  height: number;
  shownAs: ShownAs;
}>;

/** The shown sweep's line while it is on its way: one path a frame, past the chart, which would draw everything anew. */
export function MovingTrace({
  rows,
  plot,
  frequencySpan,
  levelSpan,
  width,
  height,
  shownAs,
}: MovingTraceProps) {
  const points = rows.flatMap(({ frequencyMhz, shownDbmv }) =>
    shownDbmv === null
      ? []
      : [
          `${xAt(plot, frequencySpan, frequencyMhz).toFixed(1)} ${yAt(plot, levelSpan, shownDbmv).toFixed(1)}`,
        ],
  );
  return (
    <svg className={`overlay trace trace--${shownAs}`} width={width} height={height} aria-hidden="true">
      {points.length > 1 && <path d={`M${points.join('L')}`} />}
    </svg>
  );
}
