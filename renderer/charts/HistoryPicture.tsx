import { type ReactNode, useMemo, useRef } from 'react';
import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import type { Design } from '../../core/files/station.ts';
import { levelWord } from '../format.ts';
import { ChartFrame } from './ChartFrame.tsx';
import { HistoryDrawing } from './HistoryDrawing.tsx';
import { OverlaidTable } from './OverlaidTable.tsx';
import {
  drawnSweeps,
  type OverlaidSweep,
  overlaidCsv,
  overlaidLines,
  overlaidRows,
  overlaidWords,
} from './overlaid-values.ts';
import {
  AXIS_HEIGHT,
  AXIS_WIDTH,
  LABEL_WIDTH,
  type PlotBox,
  type Span,
  shareOf,
  TOP_SPACE,
} from './scale.ts';
import { useChartHand } from './use-chart-hand.ts';
import { usePrinting } from './use-printing.ts';
import { useSize } from './use-size.ts';

export type HistoryPictureProps = Readonly<{
  title: string;
  /** Whose sweeps they are, for a picture that leaves the page. */
  about: string;
  sweeps: readonly OverlaidSweep[];
  design: Design | null;
  unit: LevelUnitName;
  /** What is said above the chart. */
  tools?: ReactNode;
}>;

/** Nearer than a few channels there is nothing more to see. */
const LEAST_MHZ = 24;
/** A line of the crosshair's card, and what the card takes beside its lines. */
const CARD_LINE = 21;
const CARD_ROOM = 44;

/** The plot of a drawing over frequency with names at its right end; null where there is no room. */
export const bandPlot = (width: number, height: number): PlotBox | null =>
  width <= AXIS_WIDTH + LABEL_WIDTH || height <= 80
    ? null
    : { left: AXIS_WIDTH, right: width - LABEL_WIDTH, top: TOP_SPACE, bottom: height - AXIS_HEIGHT };

/** The sweeps of a history over each other: the newest in full ink and weight, older ones ever thinner, with the design's band behind. */
export function HistoryPicture(props: HistoryPictureProps) {
  const { title, sweeps, design, unit } = props;
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  const isPrinting = usePrinting();
  const drawn = useMemo(() => drawnSweeps(sweeps), [sweeps]);
  const rows = useMemo(() => overlaidRows(drawn), [drawn]);
  const stops = useMemo(() => rows.map(({ frequencyMhz }) => frequencyMhz), [rows]);
  const whole = useMemo((): Span => {
    const edges = [...(design === null ? [] : [design.lowMhz, design.highMhz]), ...stops];
    return edges.length === 0 ? { low: 0, high: 1 } : { low: Math.min(...edges), high: Math.max(...edges) };
  }, [design, stops]);
  const plot = size === null ? null : bandPlot(size.width, size.height);
  const { view, cursor, controls, hand } = useChartHand({
    ...{ box, width: size?.width ?? 0, whole, least: LEAST_MHZ, stops },
    shareAt: (x) => (plot === null ? 0 : shareOf(plot, x)),
  });
  const row = rows.find(({ frequencyMhz }) => frequencyMhz === cursor) ?? null;
  const most = plot === null ? 1 : Math.max(1, Math.floor((plot.bottom - plot.top - CARD_ROOM) / CARD_LINE));
  const lines = row === null ? [] : overlaidLines(row, drawn, unit, most);
  return (
    <ChartFrame
      {...{ box, hand, view, cursor, controls }}
      title={`${title}, ${levelWord(unit)}`}
      words={row === null ? '' : overlaidWords(row, lines, unit)}
      stopsName="the channels"
      about={props.about}
      csv={() => overlaidCsv(rows, drawn)}
      tools={props.tools}
      table={<OverlaidTable {...{ rows, drawn, unit, title }} />}
    >
      {size !== null && plot !== null && drawn.length > 0 && (
        <HistoryDrawing
          {...{ drawn, design, unit, plot, view, lines }}
          row={isPrinting ? null : row}
          width={size.width}
          height={size.height}
        />
      )}
    </ChartFrame>
  );
}
