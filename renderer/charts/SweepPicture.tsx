import { useMemo, useRef, useState } from 'react';
import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { levelWord } from '../format.ts';
import { ChartFrame } from './ChartFrame.tsx';
import { asAfter, asBefore, type PairWay } from './change.ts';
import { cursorWords, type SeriesNames } from './cursor-values.ts';
import type { EndLabel } from './end-labels.ts';
import { PairWays } from './PairWays.tsx';
import { type ChartRow, chartCsv, rowsIn } from './rows.ts';
import { type ShownAs, SweepPanel } from './SweepPanel.tsx';
import { AXIS_WIDTH, LABEL_WIDTH, levelPlot, levelSpan, shareOf, stripSpan } from './scale.ts';
import { useChange } from './use-change.ts';
import { useChartHand } from './use-chart-hand.ts';
import { usePrinting } from './use-printing.ts';
import { useSize } from './use-size.ts';

export type SweepPictureProps = Readonly<{
  rows: readonly ChartRow[];
  labels: readonly EndLabel[];
  toleranceDb: number | null;
  worstMhz: number | null;
  shownAs: ShownAs;
  names: SeriesNames;
  predictionOpen: boolean;
  /** The band that the port works in: a sweep that was cut short still stands in its place. */
  band: Readonly<{ lowMhz: number; highMhz: number }> | null;
  title: string;
  /** Whose sweep it is and of when, for a picture that leaves the page. */
  about: string;
  unit: LevelUnitName;
}>;

/** Nearer than a few channels there is nothing more to see. */
const LEAST_MHZ = 24;
/** Side by side, names stand over the drawings and not beside their lines. */
const BESIDE_MARGIN = 16;

const spansOf = (rows: readonly ChartRow[], band: SweepPictureProps['band']) => {
  const levels = rows.flatMap((row) =>
    [row.shownDbmv, row.foundDbmv, row.predictedDbmv, ...(row.bandDbmv ?? [])].filter(
      (value) => value !== null,
    ),
  );
  const worstDb = rows.reduce((worst, row) => Math.max(worst, Math.abs(row.deviationDb ?? 0)), 0);
  const lowest = rows[0]?.frequencyMhz ?? 0;
  const highest = rows.at(-1)?.frequencyMhz ?? 1000;
  const low = Math.min(lowest, band?.lowMhz ?? lowest);
  const high = Math.max(highest, band?.highMhz ?? highest);
  return { frequency: { low, high: high > low ? high : low + 1 }, level: levelSpan(levels), worstDb };
};

/** Two sweeps or one, over each other, side by side or on their way, with one crosshair for finger, mouse and keys. */
export function SweepPicture(props: SweepPictureProps) {
  const { rows, names, unit } = props;
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  const isPrinting = usePrinting();
  const [wanted, setWanted] = useState<PairWay>('over');
  const [runs, setRuns] = useState(0);
  const isPair = useMemo(
    () => rows.some((row) => row.foundDbmv !== null) && rows.some((row) => row.shownDbmv !== null),
    [rows],
  );
  const way = isPair ? wanted : 'over';
  const beside = way === 'beside';
  const wayShare = useChange(way === 'moving' ? String(runs) : null);
  const spans = useMemo(() => spansOf(rows, props.band), [rows, props.band]);
  const stops = useMemo(
    () =>
      rows
        .filter((row) => row.shownDbmv !== null || row.silent || row.foundDbmv !== null)
        .map(({ frequencyMhz }) => frequencyMhz),
    [rows],
  );
  const panelWidth = (size?.width ?? 0) / (beside ? 2 : 1);
  const labelWidth = beside ? BESIDE_MARGIN : LABEL_WIDTH;
  const { view, cursor, controls, hand } = useChartHand({
    box,
    width: size?.width ?? 0,
    whole: spans.frequency,
    least: LEAST_MHZ,
    stops,
    shareAt: (x) => {
      const inside = beside && x >= panelWidth ? x - panelWidth : x;
      return shareOf(levelPlot(panelWidth, AXIS_WIDTH, labelWidth), inside);
    },
  });
  const seen = useMemo(() => rowsIn(rows, view), [rows, view]);
  const deviation = useMemo(
    () => stripSpan(props.toleranceDb ?? 1, spans.worstDb),
    [props.toleranceDb, spans.worstDb],
  );
  const shownSpans = useMemo(
    () => ({ frequency: view, level: spans.level, deviation }),
    [view, spans.level, deviation],
  );
  const row = cursor === null ? null : (rows.find(({ frequencyMhz }) => frequencyMhz === cursor) ?? null);
  const common = {
    width: panelWidth,
    height: size?.height ?? 0,
    labelWidth,
    spans: shownSpans,
    labels: props.labels,
    toleranceDb: props.toleranceDb,
    predictionOpen: props.predictionOpen,
    cursor: isPrinting ? null : row,
    names,
    title: props.title,
    unit,
  };
  const words = row === null ? '' : cursorWords(row, names, unit);

  return (
    <ChartFrame
      box={box}
      hand={hand}
      view={view}
      cursor={cursor}
      words={words}
      stopsName="the channels"
      title={`${props.title}, ${levelWord(unit)}`}
      about={props.about}
      csv={() => chartCsv(rows)}
      controls={controls}
      tools={
        isPair && (
          <PairWays
            way={way}
            onWay={(chosen) => {
              setWanted(chosen);
              setRuns((before) => before + 1);
            }}
          />
        )
      }
    >
      {size !== null && size.width > 0 && !beside && (
        <SweepPanel
          {...common}
          side="whole"
          rows={seen}
          heading=""
          worstMhz={props.worstMhz}
          shownAs={props.shownAs}
          withCard
          wayShare={wayShare}
        />
      )}
      {size !== null && size.width > 0 && beside && (
        <>
          <SweepPanel
            {...common}
            side="left"
            rows={asBefore(seen)}
            heading={names.before}
            worstMhz={null}
            shownAs="found"
            withCard={false}
            wayShare={null}
          />
          <SweepPanel
            {...common}
            side="right"
            rows={asAfter(seen)}
            heading={names.shown}
            worstMhz={props.worstMhz}
            shownAs={props.shownAs}
            withCard
            wayShare={null}
          />
        </>
      )}
    </ChartFrame>
  );
}
