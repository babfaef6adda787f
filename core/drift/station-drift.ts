import type { Port, Station } from '../files/station.ts';
import { type ControlChart, controlChart } from './control-chart.ts';
import { type DriftTrend, drifts, driftTrend, TREND_FROM, worseningPerYearDb } from './drift-trend.ts';
import { type Followed, followed, limitsOf, type SweepFigures } from './figures.ts';
import { type NormalBasis, normalBasis, normalRows } from './normalize.ts';
import { type Signal, signalsOf } from './run-rules.ts';
import { type Segment, segmentsOf } from './segments.ts';
import { weatherOf } from './weather-effect.ts';

/** One figure of the newest stretch: how it goes, and its control chart. */
export type FigureDrift = Readonly<{
  of: Followed;
  /** As if read at 20 degrees C where the basis allows it, by place in the newest stretch, dB. */
  values: readonly Readonly<{ place: number; valueDb: number }>[];
  trend: DriftTrend | null;
  chart: ControlChart | null;
  signals: readonly Signal[];
}>;

export type StationDrift = Readonly<{
  segments: readonly Segment[];
  basis: NormalBasis;
  /** Sweeps of the newest stretch whose temperature nobody wrote down, where they had to be left out. */
  withoutTemperature: number;
  figures: readonly FigureDrift[];
  /**
   * `drifting`: some figure surely moves, and not for the better; `steady`: none does, and a move of more than its tolerance a year
   * would show;
   * `unsure`: too few or too scattered to say; `too-few`: below three sweeps of the stretch.
   */
  state: 'drifting' | 'steady' | 'unsure' | 'too-few';
  /** The figure that says so: the surest one for `drifting`, the widest for the others; null for `too-few`. */
  says: Followed | null;
}>;

function stateOf(figures: readonly FigureDrift[], toleranceDb: number): Pick<StationDrift, 'state' | 'says'> {
  const trends = figures.flatMap(({ of, trend }) => (trend === null ? [] : [{ of, trend }]));
  const first = trends[0];
  if (first === undefined) return { state: 'too-few', says: null };
  const sure = trends
    .filter(({ of, trend }) => drifts(of, trend))
    .sort((a, b) => a.trend.chance - b.trend.chance)[0];
  if (sure !== undefined) return { state: 'drifting', says: sure.of };
  const reach = ({ of, trend }: typeof first) => worseningPerYearDb(of, trend);
  const widest = trends.reduce((a, b) => (reach(b) > reach(a) ? b : a));
  return { state: reach(widest) <= toleranceDb ? 'steady' : 'unsure', says: widest.of };
}

/**
 * How a station's port drifts: its sweeps cut where something known changed, the newest stretch brought to one temperature,
 * and for each followed figure the trend and the control chart of that stretch.
 * @param station  with what its span and gain control explain
 * @param port     with a design
 * @param points   complete as-found and as-left sweeps of the port in the order of time
 * @returns  null where the port has no design or there is no sweep
 * @throws   RangeError when a figure is no number
 * @source   see `segmentsOf`, `weatherOf`, `driftTrend`, `controlChart`, `signalsOf`
 */
export function stationDrift(
  station: Station,
  port: Port,
  points: readonly SweepFigures[],
): StationDrift | null {
  const { design } = port;
  const segments = segmentsOf(points);
  const newest = segments.at(-1);
  if (design === undefined || newest === undefined) return null;
  const weather = weatherOf(station, port);
  const basis = normalBasis(newest.points, weather);
  const figures = followed.map((of): FigureDrift => {
    const rows = normalRows(newest.points, of, design, weather, basis);
    const trend = rows.length < TREND_FROM ? null : driftTrend(rows, basis, limitsOf(of, design));
    const values = trend?.values ?? rows.map(({ place, valueDb }) => ({ place, valueDb }));
    const numbers = values.map(({ valueDb }) => valueDb);
    const chart = controlChart(numbers);
    return { of, values, trend, chart, signals: chart === null ? [] : signalsOf(numbers, chart) };
  });
  const counted = figures[0]?.values.length ?? 0;
  return {
    segments,
    basis,
    withoutTemperature: newest.points.length - counted,
    figures,
    ...stateOf(figures, design.toleranceDb),
  };
}
