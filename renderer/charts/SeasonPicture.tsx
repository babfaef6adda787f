import { useMemo, useRef } from 'react';
import { Area, CartesianGrid, ComposedChart, Line, XAxis, YAxis } from 'recharts';
import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { levelWord } from '../format.ts';
import { ChartFrame } from './ChartFrame.tsx';
import { levelTicks } from './level-ticks.ts';
import { SeasonHows } from './SeasonHows.tsx';
import { type SeasonMarker, SeasonOverlay } from './SeasonOverlay.tsx';
import { levelSpan, type PlotBox, type Span, shareOf, ticksOf } from './scale.ts';
import { SEASON_LEFT, SEASON_RIGHT, seasonPlots } from './season-scale.ts';
import { seasonCsv, seasonValues, temperatureWords } from './season-values.ts';
import { useChartHand } from './use-chart-hand.ts';
import { usePrinting } from './use-printing.ts';
import { useSize } from './use-size.ts';

/** One temperature, in the unit that is shown. */
export type SeasonPoint = Readonly<{
  at: number;
  lowDbmv: number;
  highDbmv: number;
  lowBand: readonly [number, number];
  highBand: readonly [number, number];
  controlDb: number;
  /** From the design, dB. */
  lowOffDb: number;
  highOffDb: number;
  /** Degrees C, whatever is shown. */
  cableC: number;
}>;

export type SeasonPictureProps = Readonly<{
  points: readonly SeasonPoint[];
  names: Readonly<{ low: string; high: string; band: string }>;
  /** The reach of the control, dB; null where it does not move. */
  reach: Readonly<{ upDb: number; downDb: number }> | null;
  markers: readonly SeasonMarker[];
  /** "°C of the cable" */
  unit: string;
  levelUnit: LevelUnitName;
  title: string;
  /** Whose year it is and what it was computed with, for a picture that leaves the page. */
  about: string;
}>;

/** Nearer than so many degrees there is nothing more to see. */
const LEAST_DEGREES = 10;

/** recharts writes its own grey into each tick unless it is told otherwise. */
const TICK = { fill: 'var(--ink)' };
const tickWords = (value: number): string => String(value).replace('-', '\u2212');
const LINE = { type: 'linear', dot: false, activeDot: false, isAnimationActive: false } as const;
const BAND = { ...LINE, type: 'linear', className: 'level-chart__band' } as const;

const marginOf = (plot: PlotBox, from: number, height: number) => ({
  top: plot.top - from,
  right: SEASON_RIGHT,
  bottom: height - (plot.bottom - from),
  left: 0,
});

/** A year in two drawings over one axis: what comes out at both ends of the band, and where the control stands for it. */
export function SeasonPicture(props: SeasonPictureProps) {
  const { points, names, reach, markers, unit, levelUnit, title } = props;
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  const isPrinting = usePrinting();
  const data = useMemo(() => [...points], [points]);
  const spans = useMemo(() => {
    const levels = points.flatMap((one) => [one.lowDbmv, one.highDbmv, ...one.lowBand, ...one.highBand]);
    const controls = [...points.map(({ controlDb }) => controlDb), reach?.upDb ?? 2, -(reach?.downDb ?? 2)];
    return {
      whole: { low: points[0]?.at ?? 0, high: points.at(-1)?.at ?? 1 } satisfies Span,
      level: levelSpan(levels),
      control: { low: Math.floor(Math.min(...controls) - 0.6), high: Math.ceil(Math.max(...controls) + 0.6) },
    };
  }, [points, reach]);
  const stops = useMemo(() => points.map(({ at }) => at), [points]);
  const width = size?.width ?? 0;
  const plots = size === null ? null : seasonPlots(size.width, size.height);
  const { view, cursor, controls, hand } = useChartHand({
    ...{ box, width, whole: spans.whole, least: LEAST_DEGREES, stops },
    shareAt: (x) => (plots === null ? 0 : shareOf(plots.levels, x)),
  });
  const point = points.find(({ at }) => at === cursor) ?? null;
  const domains = useMemo(
    () => ({
      at: [view.low, view.high] as [number, number],
      level: [spans.level.low, spans.level.high] as [number, number],
      control: [spans.control.low, spans.control.high] as [number, number],
    }),
    [spans, view],
  );
  const ticks = useMemo(() => {
    const levels = levelTicks(spans.level, levelUnit, 8);
    const texts = new Map(levels.map(({ levelDbmv, text }) => [levelDbmv, text]));
    return {
      level: levels.map(({ levelDbmv }) => levelDbmv),
      levelText: (levelDbmv: number) => texts.get(levelDbmv) ?? '',
      control: [...ticksOf(spans.control, 7)],
    };
  }, [spans, levelUnit]);
  const words =
    point === null
      ? ''
      : [
          `${temperatureWords(point.at)} ${unit}`,
          ...seasonValues(point, names, levelUnit).map(({ name, text }) => `${name} ${text}`),
        ].join(', ');
  const isDrawn = size !== null && plots !== null && size.width > SEASON_LEFT + SEASON_RIGHT;
  const axis = {
    width: SEASON_LEFT,
    axisLine: false,
    tickLine: false,
    interval: 0,
    tick: TICK,
    tickFormatter: tickWords,
  } as const;
  return (
    <ChartFrame
      {...{ box, hand, view, cursor, words, controls }}
      stopsName="the temperatures"
      wholeName="Whole year"
      title={`${title}, ${levelWord(levelUnit)} and dB`}
      about={props.about}
      csv={() => seasonCsv(points)}
      over={isDrawn && <SeasonHows markers={markers} plots={plots} span={view} />}
    >
      {isDrawn && (
        <>
          <ComposedChart
            width={size.width}
            height={plots.levelHeight}
            data={data}
            margin={marginOf(plots.levels, 0, plots.levelHeight)}
            title={title}
            accessibilityLayer={false}
            className="level-chart"
          >
            <CartesianGrid vertical={false} stroke="var(--hair)" className="level-chart__grid" />
            <XAxis dataKey="at" type="number" domain={domains.at} hide allowDataOverflow />
            <YAxis
              {...axis}
              type="number"
              domain={domains.level}
              ticks={ticks.level}
              tickFormatter={ticks.levelText}
              allowDataOverflow
            />
            <Area {...BAND} dataKey="highBand" />
            <Area {...BAND} dataKey="lowBand" />
            <Line {...LINE} dataKey="highDbmv" className="trace trace--found" />
            <Line {...LINE} dataKey="lowDbmv" className="trace trace--before-low" />
          </ComposedChart>
          <ComposedChart
            width={size.width}
            height={plots.controlHeight}
            data={data}
            margin={marginOf(plots.control, plots.levelHeight, plots.controlHeight)}
            accessibilityLayer={false}
            className="level-chart season__control"
          >
            <CartesianGrid vertical={false} stroke="var(--hair)" className="level-chart__grid" />
            <XAxis dataKey="at" type="number" domain={domains.at} hide allowDataOverflow />
            <YAxis {...axis} type="number" domain={domains.control} ticks={ticks.control} allowDataOverflow />
            <Line {...LINE} dataKey="controlDb" className="trace trace--left" />
          </ComposedChart>
          <SeasonOverlay
            points={points}
            names={names}
            reach={reach}
            markers={markers}
            unit={unit}
            levelUnit={levelUnit}
            plots={plots}
            spans={{ at: view, level: spans.level, control: spans.control }}
            cursor={isPrinting ? null : point}
            width={size.width}
            height={size.height}
          />
        </>
      )}
    </ChartFrame>
  );
}
