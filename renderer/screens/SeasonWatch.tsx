import { useEffect, useMemo } from 'react';
import { fahrenheitFromCelsius } from '../../core/units.ts';
import { temperatureTicks } from '../charts/season-scale.ts';
import { type DriftLine, WatchPicture } from '../charts/WatchPicture.tsx';
import { clock, counted, day, type TemperatureUnit } from '../format.ts';
import { selectTemperatureUnit, selectWatching } from '../state/select.ts';
import type { OpenSheet } from '../state/sheet-slice.ts';
import { useBench, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { viewWatch, type WatchLine, type WatchView } from '../state/watch-view.ts';
import { WatchSide } from './WatchSide.tsx';

const drift = (line: WatchLine, at: (point: WatchLine['points'][number]) => number | null): DriftLine => ({
  frequencyMhz: line.frequencyMhz,
  isPilot: line.isPilot,
  points: line.points.flatMap((point) => {
    const x = at(point);
    if (x === null) return [];
    const { levelDbmv } = point;
    return [
      {
        key: point.atMs,
        at: x,
        db: levelDbmv === null || line.firstDbmv === null ? null : levelDbmv - line.firstDbmv,
      },
    ];
  }),
});

/** Round moments for the axis of time, as the clock of this place says them. */
function timeAxis({ fromMs, toMs }: WatchView) {
  const steps = [1, 5, 10, 30, 60, 180, 360, 1440].map((minutes) => minutes * 60_000);
  const step = steps.find((one) => (toMs - fromMs) / one <= 8) ?? 86_400_000;
  const ticks: { at: number; words: string }[] = [];
  for (let at = Math.ceil(fromMs / step) * step; at <= toMs; at += step)
    ticks.push({ at, words: clock(new Date(at).toISOString()) });
  return { span: { low: fromMs, high: toMs }, ticks, unit: '' };
}

function temperatureAxis(view: WatchView, unit: TemperatureUnit) {
  const shown = (c: number) => (unit === 'C' ? c : fahrenheitFromCelsius(c));
  const low = Math.floor(shown(view.coldestC ?? 0) - 2);
  const high = Math.ceil(shown(view.hottestC ?? 0) + 2);
  const span = { low, high };
  const ticks = temperatureTicks(span).map((at) => ({ at, words: String(at).replace('-', '\u2212') }));
  return { span, ticks, unit: `°${unit}` };
}

/** Unattended: what the pilot and some channels do for hours or days, and what the control makes of the weather. */
export function SeasonWatch({ open }: Readonly<{ open: OpenSheet }>) {
  const { station } = open.sheet;
  const watching = useSelected(selectWatching);
  const unit = useSelected(selectTemperatureUnit);
  const { openWatch } = useWorkbench();
  const { now } = useBench();
  const stationId = station.id;
  useEffect(() => {
    void openWatch(stationId);
  }, [openWatch, stationId]);
  const shown = watching.at === 'open' && watching.watch.stationId === stationId ? watching : null;
  const view = useMemo(() => (shown === null ? null : viewWatch(shown, station)), [shown, station]);
  const overTime = useMemo(() => view?.lines.map((line) => drift(line, ({ atMs }) => atMs)) ?? [], [view]);
  const overAir = useMemo(
    () =>
      view?.lines.map((line) =>
        drift(line, ({ ambientC }) =>
          ambientC === null ? null : unit === 'C' ? ambientC : fahrenheitFromCelsius(ambientC),
        ),
      ) ?? [],
    [view, unit],
  );
  const hasAir = view !== null && view.coldestC !== null && view.hottestC !== null;
  return (
    <>
      <main className="season__watch">
        {view === null || shown === null ? (
          <p className="season__none">
            Nothing was watched here yet. Choose how long, start the watch, and leave the meter on its test
            point.
          </p>
        ) : (
          <>
            <WatchPicture
              lines={overTime}
              gaps={view.gaps.map(({ fromMs, toMs, rounds, why }) => ({
                from: fromMs,
                to: toMs,
                words: `${counted(rounds, 'round', 'rounds')} missed: ${why}`,
              }))}
              axis={timeAxis(view)}
              joined
              title={`from its first reading, since ${day(shown.watch.startedAt, now())}`}
            />
            {hasAir && (
              <WatchPicture
                lines={overAir}
                gaps={[]}
                axis={temperatureAxis(view, unit)}
                joined={false}
                title="against the temperature of the air"
              />
            )}
          </>
        )}
      </main>
      <aside className="side" aria-label="The watch">
        <WatchSide open={open} shown={shown} view={view} />
      </aside>
    </>
  );
}
