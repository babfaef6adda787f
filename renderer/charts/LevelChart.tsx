import { memo, useMemo } from 'react';
import { Area, CartesianGrid, ComposedChart, Line, XAxis, YAxis } from 'recharts';
import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { levelTicks } from './level-ticks.ts';
import type { ChartRow } from './rows.ts';
import { AXIS_WIDTH, LABEL_WIDTH, type Span, TOP_SPACE } from './scale.ts';

export type LevelChartProps = Readonly<{
  rows: readonly ChartRow[];
  width: number;
  height: number;
  frequencySpan: Span;
  levelSpan: Span;
  unit: LevelUnitName;
  /** What the shown sweep is: it decides its ink. */
  shownAs: 'found' | 'left' | 'check';
  /** True while the predicted line stands for something still to be done. */
  predictionOpen: boolean;
  /** Room at the right for the names of the lines. */
  labelWidth?: number;
  /** True while the shown sweep's line is on its way and drawn elsewhere. */
  withoutShown?: boolean;
  title: string;
}>;

/** recharts writes its own grey into each tick unless it is told otherwise. */
const TICK = { fill: 'var(--ink)' };

/** A finished sweep against its design. Drawn once per change of data, not when only the crosshair moves; the running sweep has LiveTrace. */
export const LevelChart = memo(function LevelChart(props: LevelChartProps) {
  const { rows, width, height, frequencySpan, levelSpan, unit, labelWidth = LABEL_WIDTH } = props;
  const data = useMemo(() => [...rows], [rows]);
  const axis = useMemo(() => {
    const ticks = levelTicks(levelSpan, unit, 8);
    const texts = new Map(ticks.map(({ levelDbmv, text }) => [levelDbmv, text]));
    return {
      at: ticks.map(({ levelDbmv }) => levelDbmv),
      text: (levelDbmv: number) => texts.get(levelDbmv) ?? '',
    };
  }, [levelSpan, unit]);
  const margin = useMemo(() => ({ top: TOP_SPACE, right: labelWidth, bottom: 6, left: 0 }), [labelWidth]);
  const frequencyDomain = useMemo<[number, number]>(
    () => [frequencySpan.low, frequencySpan.high],
    [frequencySpan],
  );
  const levelDomain = useMemo<[number, number]>(() => [levelSpan.low, levelSpan.high], [levelSpan]);
  const line = {
    type: 'linear',
    dot: false,
    activeDot: false,
    isAnimationActive: false,
    connectNulls: true,
  } as const;
  return (
    <ComposedChart
      width={width}
      height={height}
      data={data}
      margin={margin}
      title={props.title}
      accessibilityLayer={false}
      className="level-chart"
    >
      <CartesianGrid vertical={false} stroke="var(--hair)" className="level-chart__grid" />
      <XAxis dataKey="frequencyMhz" type="number" domain={frequencyDomain} hide allowDataOverflow />
      <YAxis
        type="number"
        domain={levelDomain}
        ticks={axis.at}
        tickFormatter={axis.text}
        width={AXIS_WIDTH}
        axisLine={false}
        tickLine={false}
        allowDataOverflow
        interval={0}
        tick={TICK}
      />
      <Area
        type="linear"
        dataKey="bandDbmv"
        className="level-chart__band"
        connectNulls
        isAnimationActive={false}
        dot={false}
        activeDot={false}
      />
      <Line {...line} dataKey="targetDbmv" className="trace trace--design" />
      <Line {...line} dataKey="foundDbmv" className="trace trace--before" />
      {props.withoutShown !== true && (
        <Line {...line} dataKey="shownDbmv" className={`trace trace--${props.shownAs}`} />
      )}
      <Line
        {...line}
        dataKey="predictedDbmv"
        className={`trace trace--predicted${props.predictionOpen ? '' : ' trace--settled'}`}
      />
    </ComposedChart>
  );
});
