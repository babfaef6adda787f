import { useMemo, useRef } from 'react';
import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { ChartFrame } from './ChartFrame.tsx';
import { type PlotBox, type Span, shareOf } from './scale.ts';
import { useChartHand } from './use-chart-hand.ts';
import { usePrinting } from './use-printing.ts';
import { useSize } from './use-size.ts';
import { WatchDrawing } from './WatchDrawing.tsx';
import { WatchTable } from './WatchTable.tsx';
import { stopsOf, watchCsv, watchValues } from './watch-values.ts';

/** One reading; `key` is when its round was, ms. */
export type DriftPoint = Readonly<{
  key: number;
  at: number;
  /** From the first reading; null where there was none. */
  db: number | null;
  levelDbmv: number | null;
  ambientC: number | null;
}>;
export type DriftLine = Readonly<{
  frequencyMhz: number;
  isPilot: boolean;
  points: readonly DriftPoint[];
}>;
export type DriftGap = Readonly<{ from: number; to: number; words: string }>;

/** The axis below: time in ms, or temperature in the unit that is shown. */
export type WatchAxis = Readonly<{
  span: Span;
  /** Round places in what is looked at. */
  ticksIn: (view: Span) => readonly Readonly<{ at: number; words: string }>[];
  unit: string;
  /** What the table's first column holds, and a place in it. */
  name: string;
  whereWords: (at: number) => string;
  /** The least of it that may fill the plot, and what the whole of it is called. */
  least: number;
  wholeName: string;
}>;

export type WatchPictureProps = Readonly<{
  lines: readonly DriftLine[];
  gaps: readonly DriftGap[];
  axis: WatchAxis;
  /** Joined by lines over time; over temperature only dots. */
  joined: boolean;
  title: string;
  /** Whose watch it is and of when, for a picture that leaves the page. */
  about: string;
  levelUnit: LevelUnitName;
}>;

/** The axis of levels and the names at the right end. */
const LEFT = 52;
const RIGHT = 104;

/** How the levels of a watch went, each from its own first reading. */
export function WatchPicture(props: WatchPictureProps) {
  const { lines, axis, title, levelUnit } = props;
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  const isPrinting = usePrinting();
  const plot = useMemo<PlotBox | null>(
    () =>
      size === null
        ? null
        : {
            left: LEFT,
            right: Math.max(LEFT + 1, size.width - RIGHT),
            top: 26,
            bottom: Math.max(27, size.height - 34),
          },
    [size],
  );
  const stops = useMemo(() => stopsOf(lines), [lines]);
  const { view, cursor, controls, hand } = useChartHand({
    ...{ box, width: size?.width ?? 0, whole: axis.span, least: axis.least, stops },
    shareAt: (x) => (plot === null ? 0 : shareOf(plot, x)),
  });
  const values = cursor === null ? [] : watchValues(lines, cursor, levelUnit);
  const words =
    cursor === null
      ? ''
      : [axis.whereWords(cursor), ...values.map(({ name, text }) => `${name} ${text}`)].join(', ');
  return (
    <ChartFrame
      {...{ box, hand, view, cursor, words, controls }}
      stopsName="the rounds"
      wholeName={axis.wholeName}
      title={`Level, dB ${title}`}
      about={props.about}
      csv={() => watchCsv(lines)}
      table={<WatchTable lines={lines} where={axis.name} whereWords={axis.whereWords} title={title} />}
    >
      {size !== null && plot !== null && (
        <WatchDrawing
          {...props}
          {...{ plot, view, values }}
          cursor={isPrinting ? null : cursor}
          width={size.width}
          height={size.height}
        />
      )}
    </ChartFrame>
  );
}
