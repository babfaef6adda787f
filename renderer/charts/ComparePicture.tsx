import { type ReactNode, useMemo, useRef } from 'react';
import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import type { ComparedRow } from '../../core/drift/compare-sweeps.ts';
import { ChartFrame } from './ChartFrame.tsx';
import { CompareDrawing } from './CompareDrawing.tsx';
import { CompareTable } from './CompareTable.tsx';
import { compareCsv, compareLines, compareWords, type TwoDays } from './compare-values.ts';
import { bandPlot } from './HistoryPicture.tsx';
import { type Span, shareOf } from './scale.ts';
import { useChartHand } from './use-chart-hand.ts';
import { usePrinting } from './use-printing.ts';
import { useSize } from './use-size.ts';

export type ComparePictureProps = Readonly<{
  title: string;
  /** Whose sweeps they are, for a picture that leaves the page. */
  about: string;
  rows: readonly ComparedRow[];
  days: TwoDays;
  unit: LevelUnitName;
  /** What stands before the tools. */
  tools?: ReactNode;
}>;

/** Nearer than a few channels there is nothing more to see. */
const LEAST_MHZ = 24;

/** The difference of two sweeps over the band, and what the temperatures explain of it. */
export function ComparePicture(props: ComparePictureProps) {
  const { title, rows, days, unit } = props;
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  const isPrinting = usePrinting();
  const both = useMemo(
    () =>
      rows.flatMap((row) => (row.differenceDb === null ? [] : [{ ...row, differenceDb: row.differenceDb }])),
    [rows],
  );
  const stops = useMemo(() => both.map(({ frequencyMhz }) => frequencyMhz), [both]);
  const whole = useMemo((): Span => {
    const low = stops[0] ?? 0;
    return { low, high: Math.max(stops.at(-1) ?? low, low + 1) };
  }, [stops]);
  const plot = size === null ? null : bandPlot(size.width, size.height);
  const { view, cursor, controls, hand } = useChartHand({
    ...{ box, width: size?.width ?? 0, whole, least: LEAST_MHZ, stops },
    shareAt: (x) => (plot === null ? 0 : shareOf(plot, x)),
  });
  const row = both.find(({ frequencyMhz }) => frequencyMhz === cursor) ?? null;
  const lines = row === null ? [] : compareLines(row, days, unit);
  return (
    <ChartFrame
      {...{ box, hand, view, cursor, controls, title }}
      words={row === null ? '' : compareWords(row, lines)}
      stopsName="the channels"
      about={props.about}
      csv={() => compareCsv(rows)}
      tools={props.tools}
      table={<CompareTable {...{ rows, days, unit, title }} />}
    >
      {size !== null && plot !== null && both.length > 0 && (
        <CompareDrawing
          {...{ both, plot, view, lines }}
          row={isPrinting ? null : row}
          width={size.width}
          height={size.height}
        />
      )}
    </ChartFrame>
  );
}
