import {
  type KeyboardEvent,
  type MouseEvent,
  type PointerEvent,
  type ReactNode,
  useMemo,
  useRef,
} from 'react';
import { ChartFrame } from './ChartFrame.tsx';
import { ControlDrawing } from './ControlDrawing.tsx';
import { ControlTable } from './ControlTable.tsx';
import { controlPlots } from './control-plots.ts';
import { controlCsv, controlLines, controlRows } from './control-values.ts';
import { shareOf } from './scale.ts';
import { timeSpan } from './time-scale.ts';
import { useChartHand } from './use-chart-hand.ts';
import { usePrinting } from './use-printing.ts';
import { useSize } from './use-size.ts';

/** One sweep or set-up of the chart. Of an earlier stretch it is shown, but counts for no limit. */
export type ControlPoint = Readonly<{
  key: string;
  /** What it opens; null where nothing was read with it. */
  sweepId: string | null;
  atMs: number;
  valueDb: number;
  isNewest: boolean;
  /** The rules it breaks, in words, and whose they are; empty where none. */
  breaks: readonly Readonly<{ words: string; name: string }>[];
  /** Read out, and shown where the point is looked at: "3 March 2025, as found, 12 degrees". */
  words: string;
}>;

export type ControlPictureProps = Readonly<{
  title: string;
  /** "Tilt" */
  figure: string;
  /** Whose it is, for a picture that leaves the page. */
  about: string;
  points: readonly ControlPoint[];
  /** Where a stretch begins, with what was changed. */
  begins: readonly Readonly<{ atMs: number; words: string }>[];
  chart: Readonly<{
    center: number;
    lower: number;
    upper: number;
    rangeUpper: number;
    ranges: readonly number[];
  }> | null;
  /** The trend as two points of time and dB. */
  trend: readonly Readonly<{ atMs: number; valueDb: number }>[] | null;
  limits: Readonly<{ fromDb: number | null; toDb: number | null }>;
  /** What the limits are called: "design". */
  limitsName: string;
  isSigned: boolean;
  onOpen: (sweepId: string) => void;
  /** What is chosen above the chart. */
  tools?: ReactNode;
}>;

/** Nearer than half a season there is nothing more to see. */
const LEAST_MS = 45 * 86_400_000;
/** A finger this near to a point means it, in the drawing's own units. */
const REACH = 22;

/**
 * A figure over the years as a Shewhart chart: each sweep a point, the limits of the newest stretch, its trend, the design's own limits,
 * and the moving ranges beneath. The point under the crosshair opens: by Enter, a click, or a second tap.
 */
export function ControlPicture(props: ControlPictureProps) {
  const { points, chart, title, figure, isSigned, onOpen } = props;
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  const isPrinting = usePrinting();
  const rows = useMemo(() => controlRows({ points, chart }), [points, chart]);
  const whole = useMemo(() => timeSpan(points.map(({ atMs }) => atMs)), [points]);
  const stops = useMemo(() => [...new Set(points.map(({ atMs }) => atMs))].sort((a, b) => a - b), [points]);
  const plots = size === null ? null : controlPlots(size.width, size.height, chart !== null);
  const { view, cursor, controls, hand } = useChartHand({
    ...{ box, width: size?.width ?? 0, whole, least: LEAST_MS, stops },
    shareAt: (x) => (plots === null ? 0 : shareOf(plots.values, x)),
  });
  const row = cursor === null ? null : (rows.find(({ point }) => point.atMs === cursor) ?? null);
  const open = () => {
    if (row !== null && row.point.sweepId !== null) onOpen(row.point.sweepId);
  };
  const stoodBefore = useRef<number | null>(null);
  const withOpening = {
    ...hand,
    onKeyDown: (event: KeyboardEvent) => {
      if (event.key === 'Enter') open();
      else hand.onKeyDown(event);
    },
    onPointerDown: (event: PointerEvent<HTMLElement>) => {
      stoodBefore.current = cursor;
      hand.onPointerDown(event);
    },
    onClick: (event: MouseEvent<HTMLElement>) => {
      const place = box.current?.getBoundingClientRect();
      if (row === null || place === undefined || plots === null || size === null) return;
      const scale = place.width === 0 ? 1 : place.width / size.width;
      const at = shareOf(plots.values, (event.clientX - place.left) / scale);
      const stands = (row.point.atMs - view.low) / (view.high - view.low);
      const away = Math.abs(at - stands) * (plots.values.right - plots.values.left);
      if (away <= REACH && stoodBefore.current === cursor) open();
    },
  };
  const lines = row === null ? [] : controlLines(row, figure, isSigned);
  const words =
    row === null
      ? ''
      : `${[row.point.words, ...lines.map(({ name, text }) => `${name} ${text}`.trim())].join('; ')}${row.point.sweepId === null ? '' : '. Enter opens it'}`;
  return (
    <ChartFrame
      {...{ box, view, cursor, words, controls, title }}
      hand={withOpening}
      stopsName="the sweeps"
      wholeName="All years"
      about={props.about}
      csv={() => controlCsv(rows)}
      tools={props.tools}
      table={<ControlTable {...{ rows, figure, isSigned, title }} hasChart={chart !== null} />}
    >
      {size !== null && plots !== null && points.length > 0 && (
        <ControlDrawing
          {...props}
          {...{ plots, view, lines }}
          row={isPrinting ? null : row}
          width={size.width}
          height={size.height}
        />
      )}
    </ChartFrame>
  );
}
