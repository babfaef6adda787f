import type { HistorySweep, StationHistory } from '../../core/bridge/quality-calls.ts';
import type { Sweep } from '../../core/bridge/records.ts';
import { type Comparison, compareSweeps } from '../../core/drift/compare-sweeps.ts';
import { type Followed, figureDb, limitsOf, type SweepFigures } from '../../core/drift/figures.ts';
import { yearsLater } from '../../core/drift/normalize.ts';
import { rules } from '../../core/drift/run-rules.ts';
import { type FigureDrift, type StationDrift, stationDrift } from '../../core/drift/station-drift.ts';
import { weatherOf } from '../../core/drift/weather-effect.ts';
import type { Port } from '../../core/files/station.ts';
import { rowsAtPort } from '../../core/line/port-level.ts';
import type { Result } from '../../core/result.ts';
import type { ControlPictureProps, ControlPoint } from '../charts/ControlPicture.tsx';
import type { TemperatureUnit } from '../format.ts';
import { temperature } from '../format.ts';
import { dayWords } from './quality-words.ts';

/** What a history screen shows, computed once for each history. */
export type HistoryView = Readonly<{
  port: Port;
  drift: StationDrift | null;
}>;

const figuresOf = (sweep: HistorySweep): SweepFigures[] =>
  sweep.figures === null
    ? []
    : [
        {
          sweepId: sweep.sweepId,
          visitId: sweep.visitId,
          atMs: Date.parse(sweep.at),
          purpose: sweep.purpose,
          ambientC: sweep.ambientC,
          revision: sweep.revision,
          pluggedIn: sweep.pluggedIn,
          ...sweep.figures,
        },
      ];

/** The drift of the history's port; null where the port is gone from its station, which no history has. */
export function viewHistory(history: StationHistory): HistoryView | null {
  const port = history.station.ports.find(({ name }) => name === history.portName);
  return port === undefined
    ? null
    : { port, drift: stationDrift(history.station, port, history.sweeps.flatMap(figuresOf)) };
}

export const purposeWords = { 'as-found': 'as found', 'as-left': 'as left' } as const;

/** "3 March 2025, as found, 12 °C" */
export function sweepWords(
  sweep: Readonly<{ atMs: number; purpose: 'as-found' | 'as-left'; ambientC: number | null }>,
  unit: TemperatureUnit,
): string {
  const warm = sweep.ambientC === null ? '' : `, ${temperature(sweep.ambientC, unit)}`;
  return `${dayWords(sweep.atMs)}, ${purposeWords[sweep.purpose]}${warm}`;
}

/** A figure's chart: the newest stretch as core computed it, and earlier ones as they were read. */
export function controlPicture(
  { port, drift }: HistoryView,
  of: Followed,
  unit: TemperatureUnit,
): Omit<ControlPictureProps, 'title' | 'onOpen'> | null {
  const { design } = port;
  const newest = drift?.segments.at(-1);
  const figure = drift?.figures.find((one) => one.of === of);
  if (design === undefined || drift === null || newest === undefined || figure === undefined) return null;
  const earlier = drift.segments.slice(0, -1).flatMap(({ points }) => points);
  const before = earlier.map(
    (point): ControlPoint => ({
      sweepId: point.sweepId,
      atMs: point.atMs,
      valueDb: figureDb(point, of),
      isNewest: false,
      breaks: [],
      words: sweepWords(point, unit),
    }),
  );
  const now = figure.values.flatMap(({ place, valueDb }, i): ControlPoint[] => {
    const point = newest.points[place];
    if (point === undefined) return [];
    const breaks = figure.signals
      .filter((signal) => signal.place === i)
      .map(({ rule }) => `${rules[rule].words} (${rules[rule].name})`);
    return [
      {
        sweepId: point.sweepId,
        atMs: point.atMs,
        valueDb,
        isNewest: true,
        breaks,
        words: sweepWords(point, unit),
      },
    ];
  });
  return {
    points: [...before, ...now],
    begins: drift.segments.slice(1).flatMap(({ begins, points }) => {
      const first = points[0];
      const words = { first: '', design: 'new design', parts: 'parts changed', adjusted: 'adjusted' }[
        begins.cause
      ];
      return first === undefined ? [] : [{ atMs: first.atMs, words }];
    }),
    chart: figure.chart,
    trend: trendLine(figure, now),
    limits: limitsOf(of, design),
    isSigned: of !== 'flatness',
  };
}

/** The fitted line over the newest stretch; only where it says something. */
function trendLine({ trend }: FigureDrift, now: readonly ControlPoint[]): ControlPictureProps['trend'] {
  const first = now[0];
  const last = now.at(-1);
  if (trend === null || first === undefined || last === undefined) return null;
  const { valueDb, perYearDb } = trend.line;
  const years = (first.atMs - last.atMs) / (yearsLater(0, 1) - 0);
  return [
    { atMs: first.atMs, valueDb: valueDb + perYearDb * years },
    { atMs: last.atMs, valueDb },
  ];
}

/** Two sweeps of the history against each other. */
export function comparison(
  history: StationHistory,
  port: Port,
  earlier: Sweep,
  later: Sweep,
): Result<Comparison, 'nothing-in-common'> {
  const of = ({ readings, summary }: Sweep) => ({
    rows: rowsAtPort(readings, summary.testPointLossDb),
    ambientC: summary.ambientC,
  });
  return compareSweeps(of(earlier), of(later), port.design ?? null, weatherOf(history.station, port));
}
