import type { HistorySweep, StationHistory } from '../../core/bridge/quality-calls.ts';
import type { Sweep } from '../../core/bridge/records.ts';
import { type Comparison, compareSweeps } from '../../core/drift/compare-sweeps.ts';
import type { DriftTrend } from '../../core/drift/drift-trend.ts';
import { type Followed, figureDb, limitsOf, type SweepFigures } from '../../core/drift/figures.ts';
import { yearsLater } from '../../core/drift/normalize.ts';
import { type ReserveTrend, reserveTrend } from '../../core/drift/reserve-trend.ts';
import { rules } from '../../core/drift/run-rules.ts';
import { type StationDrift, stationDrift } from '../../core/drift/station-drift.ts';
import { weatherOf } from '../../core/drift/weather-effect.ts';
import type { Port } from '../../core/files/station.ts';
import { rowsAtPort } from '../../core/line/port-level.ts';
import type { Result } from '../../core/result.ts';
import type { ControlPictureProps, ControlPoint } from '../charts/ControlPicture.tsx';
import type { TemperatureUnit } from '../format.ts';
import { oneDecimal, temperature } from '../format.ts';
import { dayWords } from './quality-words.ts';

/** What a history screen shows, computed once for each history. */
export type HistoryView = Readonly<{
  port: Port;
  drift: StationDrift | null;
  /** What the set-ups left; without a value where none measured it. */
  reserve: ReserveTrend;
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
    : {
        port,
        drift: stationDrift(history.station, port, history.sweeps.flatMap(figuresOf)),
        reserve: reserveTrend(history.reserves.map(({ at, ...one }) => ({ ...one, atMs: Date.parse(at) }))),
      };
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

/** All that a chart over the years needs of the history. */
export type FigurePicture = Pick<
  ControlPictureProps,
  'points' | 'begins' | 'chart' | 'trend' | 'limits' | 'limitsName' | 'isSigned'
>;

/** A figure's chart: the newest stretch as core computed it, and earlier ones as they were read. */
export function controlPicture(
  { port, drift }: HistoryView,
  of: Followed,
  unit: TemperatureUnit,
): FigurePicture | null {
  const { design } = port;
  const newest = drift?.segments.at(-1);
  const figure = drift?.figures.find((one) => one.of === of);
  if (design === undefined || drift === null || newest === undefined || figure === undefined) return null;
  const earlier = drift.segments.slice(0, -1).flatMap(({ points }) => points);
  const before = earlier.map(
    (point): ControlPoint => ({
      key: point.sweepId,
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
    const breaks = figure.signals.filter((signal) => signal.place === i).map(({ rule }) => rules[rule]);
    return [
      {
        key: point.sweepId,
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
    trend: trendLine(figure.trend, now),
    limits: limitsOf(of, design),
    limitsName: 'design',
    isSigned: of !== 'flatness',
  };
}

/** The reserve's chart: as if every set-up had been made at one temperature, and without a control chart, because each sets it anew. */
export function reservePicture(
  { reserve: { values, trend, limits } }: HistoryView,
  { sweeps, reserves }: StationHistory,
): FigurePicture | null {
  if (values.length === 0) return null;
  const points = values.map(({ visitId, atMs, valueDb }): ControlPoint => {
    const left = reserves.find((one) => one.visitId === visitId && Date.parse(one.at) === atMs);
    const sweep = sweeps.findLast((one) => one.visitId === visitId);
    const said =
      left === undefined ? '' : `, ${oneDecimal(left.leftDb)} left of ${oneDecimal(left.askedDb)} asked for`;
    return {
      key: `${visitId} ${atMs}`,
      sweepId: sweep?.sweepId ?? null,
      atMs,
      valueDb,
      isNewest: true,
      breaks: [],
      words: `${dayWords(atMs)}${said}`,
    };
  });
  return {
    points,
    begins: [],
    chart: null,
    trend: trendLine(trend, points),
    limits,
    limitsName: 'rule',
    isSigned: true,
  };
}

/** The fitted line over the newest stretch; only where it says something. */
function trendLine(trend: DriftTrend | null, now: readonly ControlPoint[]): ControlPictureProps['trend'] {
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
