import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { ChartOverlay } from './ChartOverlay.tsx';
import { onTheWay } from './change.ts';
import type { SeriesNames } from './cursor-values.ts';
import { DeviationStrip } from './DeviationStrip.tsx';
import type { EndLabel } from './end-labels.ts';
import { LevelChart } from './LevelChart.tsx';
import { MovingTrace } from './MovingTrace.tsx';
import type { ChartRow } from './rows.ts';
import { levelPlot, type Span, stripHeight } from './scale.ts';

export type ShownAs = 'found' | 'left' | 'check';

export type SweepPanelProps = Readonly<{
  /** Which part of the picture it fills. */
  side: 'whole' | 'left' | 'right';
  rows: readonly ChartRow[];
  width: number;
  height: number;
  labelWidth: number;
  spans: Readonly<{ frequency: Span; level: Span; deviation: Span }>;
  labels: readonly EndLabel[];
  heading: string;
  toleranceDb: number | null;
  worstMhz: number | null;
  shownAs: ShownAs;
  predictionOpen: boolean;
  cursor: ChartRow | null;
  withCard: boolean;
  names: SeriesNames;
  /** The way from before to after while it is shown, 0 to 1; null when all stands still. */
  wayShare: number | null;
  title: string;
  unit: LevelUnitName;
}>;

/** The chart of levels and the strip of deviations under it as one drawing. */
export function SweepPanel(props: SweepPanelProps) {
  const { rows, width, height, labelWidth, spans, wayShare } = props;
  const levelHeight = height - stripHeight(props.toleranceDb);
  const moving = wayShare !== null;
  const now = moving ? onTheWay(rows, wayShare) : rows;
  const seen = now.filter(
    ({ frequencyMhz }) => frequencyMhz >= spans.frequency.low && frequencyMhz <= spans.frequency.high,
  );
  return (
    <div className={`picture__panel picture__panel--${props.side}`}>
      <LevelChart
        rows={rows}
        width={width}
        height={levelHeight}
        labelWidth={labelWidth}
        frequencySpan={spans.frequency}
        levelSpan={spans.level}
        unit={props.unit}
        shownAs={props.shownAs}
        predictionOpen={props.predictionOpen}
        withoutShown={moving}
        title={props.title}
      />
      {moving && (
        <MovingTrace
          rows={seen}
          plot={levelPlot(width, levelHeight, labelWidth)}
          frequencySpan={spans.frequency}
          levelSpan={spans.level}
          width={width}
          height={levelHeight}
          shownAs={props.shownAs}
        />
      )}
      <DeviationStrip
        rows={seen}
        width={width}
        frequencySpan={spans.frequency}
        deviationSpan={spans.deviation}
        toleranceDb={props.toleranceDb}
        predictionOpen={props.predictionOpen}
        labelWidth={labelWidth}
      />
      <ChartOverlay
        rows={rows}
        width={width}
        levelHeight={levelHeight}
        height={height}
        labelWidth={labelWidth}
        frequencySpan={spans.frequency}
        levelSpan={spans.level}
        labels={props.labels}
        heading={props.heading}
        worstMhz={moving ? null : props.worstMhz}
        cursor={props.cursor}
        withCard={props.withCard}
        names={props.names}
        unit={props.unit}
      />
    </div>
  );
}
