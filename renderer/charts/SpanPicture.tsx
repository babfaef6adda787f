import { useMemo, useRef } from 'react';
import { ChartFrame } from './ChartFrame.tsx';
import { SpanDrawing } from './SpanDrawing.tsx';
import { SpanTable } from './SpanTable.tsx';
import { type PlotBox, shareOf } from './scale.ts';
import { spanCsv, spanRows, spanRowWords } from './span-values.ts';
import { useChartHand } from './use-chart-hand.ts';
import { usePrinting } from './use-printing.ts';
import { useSize } from './use-size.ts';

export type SpanCurve = Readonly<{
  key: 'cold' | 'now' | 'hot';
  /** "hot, 60 °C" */
  words: string;
  points: readonly (readonly [mhz: number, lossDb: number])[];
}>;

export type SpanPictureProps = Readonly<{
  curves: readonly SpanCurve[];
  /** Measured loss; empty where no sweep tells it. */
  measured: readonly (readonly [mhz: number, lossDb: number])[];
  lowMhz: number;
  highMhz: number;
  title: string;
  /** Whose span it is, for a picture that leaves the page. */
  about: string;
}>;

const LEFT = 52;
const RIGHT = 172;
const TOP = 34;
const BOTTOM = 36;
/** Nearer than a few channels there is nothing more to see. */
const LEAST_MHZ = 24;

/** What the cable takes away, hanging down from nothing: the farther down, the less is left. */
export function SpanPicture(props: SpanPictureProps) {
  const { curves, measured, lowMhz, highMhz, title } = props;
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  const isPrinting = usePrinting();
  const rows = useMemo(() => spanRows(curves, measured), [curves, measured]);
  const whole = useMemo(() => ({ low: lowMhz, high: highMhz }), [lowMhz, highMhz]);
  const stops = useMemo(() => rows.map(({ mhz }) => mhz), [rows]);
  const plot: PlotBox | null =
    size === null || size.width <= LEFT + RIGHT || size.height <= 120
      ? null
      : { left: LEFT, right: size.width - RIGHT, top: TOP, bottom: size.height - BOTTOM };
  const { view, cursor, controls, hand } = useChartHand({
    ...{ box, width: size?.width ?? 0, whole, least: LEAST_MHZ, stops },
    shareAt: (x) => (plot === null ? 0 : shareOf(plot, x)),
  });
  const row = rows.find(({ mhz }) => mhz === cursor) ?? null;
  return (
    <ChartFrame
      {...{ box, hand, view, cursor, controls, title }}
      words={row === null ? '' : spanRowWords(row, curves)}
      stopsName="the frequencies"
      about={props.about}
      csv={() => spanCsv(rows)}
      table={<SpanTable rows={rows} curves={curves} title={title} />}
    >
      {size !== null && plot !== null && (
        <SpanDrawing
          {...{ curves, measured, plot, view }}
          row={isPrinting ? null : row}
          width={size.width}
          height={size.height}
        />
      )}
    </ChartFrame>
  );
}
