import { useMemo, useState } from 'react';
import type { Station } from '../../core/files/station.ts';
import type { SeasonRow } from '../../core/season/rows.ts';
import { fahrenheitFromCelsius } from '../../core/units.ts';
import type { SeasonMarker } from '../charts/SeasonOverlay.tsx';
import { SeasonPicture, type SeasonPoint } from '../charts/SeasonPicture.tsx';
import { SeasonTable, type SeasonTableRow } from '../charts/SeasonTable.tsx';
import { ToolsPlaceContext } from '../charts/tools-place.ts';
import { day, mhz, moment, type TemperatureUnit, temperature } from '../format.ts';
import type { How } from '../how/how.ts';
import { howHolds, howLimits } from '../how/season.ts';
import { howSeasonRow, howSetAt } from '../how/season-row.ts';
import { Guard } from '../parts/Guard.tsx';
import type { AsMeasured } from '../state/as-measured.ts';
import { type SeasonView, viewSeason } from '../state/season-view.ts';
import { modeWords } from '../state/season-words.ts';
import {
  selectLevelUnit,
  selectReachFrom,
  selectSeasonMode,
  selectSunOffsetC,
  selectTemperatureUnit,
  selectWeather,
} from '../state/select.ts';
import { useBench, useSelected } from '../state/use-workbench.ts';
import { SeasonSide } from './SeasonSide.tsx';

const shownIn = (unit: TemperatureUnit, atC: number): number =>
  unit === 'C' ? atC : fahrenheitFromCelsius(atC);

const pointsOf = (view: SeasonView, unit: TemperatureUnit): readonly SeasonPoint[] => {
  const { lowDbmv, highDbmv, toleranceDb } = view.plan.design;
  return view.chart.map((row) => ({
    at: shownIn(unit, row.ambientC),
    cableC: row.ambientC,
    lowDbmv: row.lowDbmv,
    highDbmv: row.highDbmv,
    lowBand: [lowDbmv - toleranceDb, lowDbmv + toleranceDb],
    highBand: [highDbmv - toleranceDb, highDbmv + toleranceDb],
    controlDb: row.controlDb,
    lowOffDb: row.lowDbmv - lowDbmv,
    highOffDb: row.highDbmv - highDbmv,
  }));
};

function markersOf(view: SeasonView, unit: TemperatureUnit, setFrom: string): readonly SeasonMarker[] {
  const { cable, limit, tolerance, plan } = view;
  const inside = (atC: number | null): atC is number => atC !== null && atC > cable.coldC && atC < cable.hotC;
  const marker = (
    key: string,
    atC: number,
    words: string,
    tone: SeasonMarker['tone'],
    where: SeasonMarker['in'],
    how: How,
  ) => ({
    key,
    at: shownIn(unit, atC),
    words,
    tone,
    in: where,
    how,
  });
  const { setAtC } = plan.gainControl;
  return [
    ...(inside(setAtC)
      ? [
          marker(
            'set',
            setAtC,
            `set at ${temperature(setAtC, unit)}`,
            'plain',
            'foot',
            howSetAt(plan, unit, setFrom),
          ),
        ]
      : []),
    ...[limit.coldC, limit.hotC]
      .filter(inside)
      .map((atC) =>
        marker(
          `limit ${atC}`,
          atC,
          `runs out at ${temperature(atC, unit)}`,
          'bad',
          'control',
          howLimits(plan, limit, unit),
        ),
      ),
    ...[tolerance.coldC, tolerance.hotC]
      .filter(inside)
      .map((atC) =>
        marker(
          `out ${atC}`,
          atC,
          `leaves the band at ${temperature(atC, unit)}`,
          'bad',
          'top',
          howHolds(plan, tolerance, unit),
        ),
      ),
  ];
}

/** A row stands outside at the end of the band that strays most: the high one. */
function standingOf(view: SeasonView, row: SeasonRow): SeasonTableRow['standing'] {
  const { highDbmv, toleranceDb } = view.plan.design;
  const offDb = row.highDbmv - highDbmv;
  if (Math.abs(offDb) > toleranceDb + 1e-9) return offDb < 0 ? 'low' : 'high';
  return row.atLimit ? 'at its end' : 'inside';
}

/** Fingers on two numbers need this many rows of the table between them. */
const ROWS_APART = 2;

/** The rows that tell how they came about: both ends of the year and the temperature of the setting, all where a finger has room. */
function toldRows({ table, plan }: SeasonView): ReadonlySet<number> {
  const last = table.length - 1;
  const { setAtC } = plan.gainControl;
  const set = table.reduce(
    (best, row, i) =>
      Math.abs(row.ambientC - setAtC) < Math.abs((table[best]?.ambientC ?? 0) - setAtC) ? i : best,
    0,
  );
  return new Set([0, last, ...(set >= ROWS_APART && last - set >= ROWS_APART ? [set] : [])]);
}

export type SeasonYearProps = Readonly<{
  /** With the gain control that the year is computed with. */
  station: Station;
  measured: AsMeasured | null;
}>;

export function SeasonYear({ station, measured }: SeasonYearProps) {
  const weather = useSelected(selectWeather);
  const sunOffsetC = useSelected(selectSunOffsetC);
  const mode = useSelected(selectSeasonMode);
  const unit = useSelected(selectTemperatureUnit);
  const reachFrom = useSelected(selectReachFrom);
  const { now } = useBench();
  const setFrom =
    measured === null || reachFrom === 'file'
      ? 'The station file.'
      : `The set-up that was finished ${day(measured.endedAt, now())}.`;
  const levelUnit = useSelected(selectLevelUnit);
  const view = useMemo(
    () => viewSeason(station, weather, sunOffsetC, mode),
    [station, weather, sunOffsetC, mode],
  );
  const shown = useMemo(
    () =>
      'missing' in view ? null : { points: pointsOf(view, unit), markers: markersOf(view, unit, setFrom) },
    [view, unit, setFrom],
  );
  const [toolsPlace, setToolsPlace] = useState<HTMLElement | null>(null);
  if ('missing' in view || shown === null)
    return (
      <main className="plain-page">
        <h1>The year can’t be told from this station’s file.</h1>
        {'missing' in view && <p>{`${view.missing}: ${view.helpText}`}</p>}
      </main>
    );
  const { design, gainControl } = view.plan;
  const names = { high: mhz(design.highMhz), low: mhz(design.lowMhz), band: `design ±${design.toleranceDb}` };
  const cable = `°${unit} cable`;
  const title = 'Output and control from the coldest to the hottest day';
  const told = toldRows(view);
  const rows = view.table.map((row, i) => ({
    ...row,
    key: String(row.ambientC),
    at: temperature(row.ambientC, unit).replace(/\s.*$/, ''),
    standing: standingOf(view, row),
    how: told.has(i) ? howSeasonRow(view.plan, row, unit, levelUnit) : null,
  }));
  const table = (
    <SeasonTable
      rows={rows}
      names={names}
      unit={cable}
      levelUnit={levelUnit}
      title={`${station.name}: ${title}`}
    />
  );
  return (
    <>
      <main className="season__main">
        <Guard fallback={null} resetKey={`${station.id} ${unit}`}>
          <ToolsPlaceContext value={toolsPlace}>
            <SeasonPicture
              points={shown.points}
              markers={shown.markers}
              names={names}
              reach={gainControl.mode === 'manual' ? null : gainControl}
              unit={cable}
              levelUnit={levelUnit}
              title={title}
              about={`${station.name}, ${modeWords[gainControl.mode]} control, set at ${temperature(gainControl.setAtC, unit)}, computed ${moment(now())}`}
            />
          </ToolsPlaceContext>
        </Guard>
        <div className="season__beside">
          <div className="tools-place" ref={setToolsPlace} />
          {table}
        </div>
      </main>
      <aside className="side" aria-label="What the year will do">
        <SeasonSide view={view} measured={measured} />
      </aside>
    </>
  );
}
