import { useEffect, useMemo } from 'react';
import { fahrenheitFromCelsius } from '../../core/units.ts';
import type { Span } from '../charts/scale.ts';
import { temperatureTicks } from '../charts/season-scale.ts';
import { temperatureWords } from '../charts/season-values.ts';
import { type DriftLine, type WatchAxis, WatchPicture } from '../charts/WatchPicture.tsx';
import { clock, counted, day, moment, oneDecimal, type TemperatureUnit } from '../format.ts';
import { selectLevelUnit, selectTemperatureUnit, selectWatching } from '../state/select.ts';
import type { OpenSheet } from '../state/sheet-slice.ts';
import { useBench, useSelected, useWorkbench } from '../state/use-workbench.ts';
import type { OpenWatch } from '../state/watch-slice.ts';
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
        levelDbmv,
        ambientC: point.ambientC,
        db: levelDbmv === null || line.firstDbmv === null ? null : levelDbmv - line.firstDbmv,
      },
    ];
  }),
});

const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;

/** Round moments for the axis of time, as the clock of this place says them. */
function timeTicks({ low, high }: Span) {
  const steps = [1, 5, 10, 30, 60, 180, 360, 1440].map((minutes) => minutes * MINUTE_MS);
  const step = steps.find((one) => (high - low) / one <= 8) ?? DAY_MS;
  const ticks: { at: number; words: string }[] = [];
  for (let at = Math.ceil(low / step) * step; at <= high; at += step)
    ticks.push({ at, words: clock(new Date(at).toISOString()) });
  return ticks;
}

/** Rounds come every two seconds at the oftenest; by the minute alone many would have one name. */
const secondsOf = (atMs: number): string => {
  const at = new Date(atMs);
  return `${clock(at.toISOString())} and ${at.getSeconds()} s`;
};

function timeAxis({ fromMs, toMs }: WatchView): WatchAxis {
  const isLong = toMs - fromMs > DAY_MS;
  return {
    span: { low: fromMs, high: toMs },
    ticksIn: timeTicks,
    unit: '',
    name: 'time',
    whereWords: (at) => (isLong ? moment(new Date(at).toISOString()) : secondsOf(at)),
    least: 2 * MINUTE_MS,
    wholeName: 'Whole watch',
  };
}

function temperatureAxis(view: WatchView, unit: TemperatureUnit): WatchAxis {
  const shown = (c: number) => (unit === 'C' ? c : fahrenheitFromCelsius(c));
  const low = Math.floor(shown(view.coldestC ?? 0) - 2);
  const high = Math.ceil(shown(view.hottestC ?? 0) + 2);
  return {
    span: { low, high },
    ticksIn: (span) => temperatureTicks(span).map((at) => ({ at, words: temperatureWords(at) })),
    unit: `°${unit}`,
    name: `°${unit} air`,
    whereWords: (at) => `${oneDecimal(at)}\u00A0°${unit}`.replace('-', '\u2212'),
    least: 3,
    wholeName: 'All temperatures',
  };
}

const aboutOf = (stationName: string, { portName, startedAt }: OpenWatch['watch']): string =>
  `${stationName}, ${portName}, watched from ${moment(startedAt)}`;

/** Unattended: what the pilot and some channels do for hours or days, and what the control makes of the weather. */
export function SeasonWatch({ open }: Readonly<{ open: OpenSheet }>) {
  const { station } = open.sheet;
  const watching = useSelected(selectWatching);
  const unit = useSelected(selectTemperatureUnit);
  const levelUnit = useSelected(selectLevelUnit);
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
  const onTime = useMemo(() => (view === null ? null : timeAxis(view)), [view]);
  const onAir = useMemo(() => (view === null ? null : temperatureAxis(view, unit)), [view, unit]);
  const hasAir = view !== null && view.coldestC !== null && view.hottestC !== null;
  return (
    <>
      <main className="season__watch">
        {view === null || shown === null || onTime === null || onAir === null ? (
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
              axis={onTime}
              joined
              about={aboutOf(station.name, shown.watch)}
              levelUnit={levelUnit}
              title={`from its first reading, since ${day(shown.watch.startedAt, now())}`}
            />
            {hasAir && (
              <WatchPicture
                lines={overAir}
                gaps={[]}
                axis={onAir}
                joined={false}
                about={aboutOf(station.name, shown.watch)}
                levelUnit={levelUnit}
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
