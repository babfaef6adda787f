import { type KeyboardEvent, type PointerEvent, useMemo, useRef, useState } from 'react';
import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { ChartOverlay, cursorWords, type EndLabel } from './ChartOverlay.tsx';
import { DeviationStrip } from './DeviationStrip.tsx';
import { LevelChart } from './LevelChart.tsx';
import { type ChartRow, thinned } from './rows.ts';
import { levelPlot, levelSpan, stripHeight, stripSpan } from './scale.ts';
import { useSize } from './use-size.ts';

export type SweepPictureProps = Readonly<{
  rows: readonly ChartRow[];
  labels: readonly EndLabel[];
  toleranceDb: number | null;
  worstMhz: number | null;
  shownAs: 'found' | 'left' | 'check';
  shownWord: string;
  predictionOpen: boolean;
  /** The band that the port works in: a sweep that was cut short still stands in its place. */
  band: Readonly<{ lowMhz: number; highMhz: number }> | null;
  title: string;
  unit: LevelUnitName;
}>;

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

/** The chart of levels and the strip of deviations as one picture with one cursor, walked by finger, mouse or arrow keys. */
export function SweepPicture(props: SweepPictureProps) {
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  const [cursorMhz, setCursorMhz] = useState<number | null>(null);
  const rows = useMemo(() => thinned(props.rows), [props.rows]);
  const spans = useMemo(() => spansOf(rows, props.band), [rows, props.band]);
  const stops = useMemo(() => rows.filter((row) => row.shownDbmv !== null || row.silent), [rows]);
  const deviation = useMemo(
    () => stripSpan(props.toleranceDb ?? 1, spans.worstDb),
    [props.toleranceDb, spans.worstDb],
  );
  const below = stripHeight(props.toleranceDb);
  const at = stops.findIndex((row) => row.frequencyMhz === cursorMhz);
  const cursor = stops[at];

  function walk(event: KeyboardEvent): void {
    const steps: Record<string, number> = { ArrowLeft: -1, ArrowRight: 1, PageDown: -10, PageUp: 10 };
    const step = steps[event.key];
    if (event.key === 'Escape') setCursorMhz(null);
    else if (event.key === 'Home') setCursorMhz(stops[0]?.frequencyMhz ?? null);
    else if (event.key === 'End') setCursorMhz(stops.at(-1)?.frequencyMhz ?? null);
    else if (step !== undefined)
      setCursorMhz(stops[Math.min(stops.length - 1, Math.max(0, at + step))]?.frequencyMhz ?? null);
    else return;
    event.preventDefault();
  }

  function point(event: PointerEvent<HTMLDivElement>): void {
    if (size === null) return;
    const plot = levelPlot(size.width, size.height - below);
    const inside = event.clientX - event.currentTarget.getBoundingClientRect().left;
    const share = (inside - plot.left) / (plot.right - plot.left);
    const wanted = spans.frequency.low + share * (spans.frequency.high - spans.frequency.low);
    let nearest: ChartRow | null = null;
    for (const row of stops)
      if (nearest === null || Math.abs(row.frequencyMhz - wanted) < Math.abs(nearest.frequencyMhz - wanted))
        nearest = row;
    setCursorMhz(nearest?.frequencyMhz ?? null);
  }

  return (
    <div
      ref={box}
      className="picture"
      role="slider"
      tabIndex={0}
      aria-label={props.title}
      aria-valuemin={spans.frequency.low}
      aria-valuemax={spans.frequency.high}
      aria-valuenow={cursor?.frequencyMhz ?? spans.frequency.low}
      aria-valuetext={
        cursor === undefined
          ? 'Left and right walk the channels'
          : cursorWords(cursor, props.shownWord, props.unit)
      }
      onKeyDown={walk}
      onPointerMove={point}
      onPointerDown={point}
      onPointerLeave={() => setCursorMhz(null)}
    >
      {size !== null && size.width > 0 && (
        <>
          <LevelChart
            rows={rows}
            width={size.width}
            height={size.height - below}
            frequencySpan={spans.frequency}
            levelSpan={spans.level}
            unit={props.unit}
            shownAs={props.shownAs}
            predictionOpen={props.predictionOpen}
            title={props.title}
          />
          <DeviationStrip
            rows={rows}
            width={size.width}
            frequencySpan={spans.frequency}
            deviationSpan={deviation}
            toleranceDb={props.toleranceDb}
            predictionOpen={props.predictionOpen}
          />
          <ChartOverlay
            rows={rows}
            width={size.width}
            levelHeight={size.height - below}
            height={size.height}
            frequencySpan={spans.frequency}
            levelSpan={spans.level}
            labels={props.labels}
            worstMhz={props.worstMhz}
            cursorMhz={cursorMhz}
            shownWord={props.shownWord}
            unit={props.unit}
          />
        </>
      )}
    </div>
  );
}
