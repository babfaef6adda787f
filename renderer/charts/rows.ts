import type { Design } from '../../core/files/station.ts';
import { targetDbmv } from '../../core/line/design-line.ts';
import type { LevelRow } from '../../core/line/level-row.ts';
import type { RowTarget } from '../../core/line/row-targets.ts';
import { csvOf, digits } from './csv.ts';

/** One frequency of the chart and of the table beside it. Levels in dBmV at the port; null where a sweep has none. */
export type ChartRow = Readonly<{
  frequencyMhz: number;
  /** The design line, moved to where this channel's kind of signal is carried. */
  targetDbmv: number | null;
  bandDbmv: readonly [number, number] | null;
  shownDbmv: number | null;
  foundDbmv: number | null;
  predictedDbmv: number | null;
  /** The shown level less the target, dB. */
  deviationDb: number | null;
  predictedDeviationDb: number | null;
  /** The kind of signal that was found here: "analog", "256-QAM"; null where nothing was judged. */
  signal: string | null;
  /** Of the shown sweep, where its source gives one. */
  merDb: number | null;
  /** True where the shown sweep asked and the meter had no level. */
  silent: boolean;
}>;

export type ChartSeries = Readonly<{
  design: Design | null;
  shown: readonly LevelRow[];
  found: readonly LevelRow[] | null;
  predicted: readonly LevelRow[] | null;
  /** By frequency, what each channel is compared with; null: all with the design line itself. */
  targets: ReadonlyMap<number, RowTarget> | null;
}>;

/** More points than this cost a slow laptop its patience and show nothing more at this width. */
export const POINT_BUDGET = 420;

const byFrequency = (rows: readonly LevelRow[]): Map<number, number | null> => {
  const map = new Map<number, number | null>();
  for (const row of rows)
    if (row.frequencyMhz !== null) map.set(row.frequencyMhz, row.unlocked === true ? null : row.levelDbmv);
  return map;
};

/** How far the target lies from the design line: at a frequency that was not judged, as at the nearest that was. */
function nearestOffset(
  design: Design,
  targets: ReadonlyMap<number, RowTarget> | null,
): (frequencyMhz: number) => number {
  const known = [...(targets ?? [])]
    .map(([atMhz, target]) => ({ atMhz, offsetDb: target.targetDbmv - targetDbmv(design, atMhz) }))
    .sort((a, b) => a.atMhz - b.atMhz);
  if (known.every(({ offsetDb }) => Math.abs(offsetDb) < 1e-9)) return () => 0;
  return (frequencyMhz) => {
    const after = known.findIndex(({ atMhz }) => atMhz >= frequencyMhz);
    const right = after === -1 ? undefined : known[after];
    const left = after === -1 ? known.at(-1) : known[after - 1];
    if (right === undefined || left === undefined) return (right ?? left)?.offsetDb ?? 0;
    return frequencyMhz - left.atMhz < right.atMhz - frequencyMhz ? left.offsetDb : right.offsetDb;
  };
}

/** Joins the sweeps of one chart by frequency, in rising order, with the design beside each. */
export function chartRows({ design, shown, found, predicted, targets }: ChartSeries): readonly ChartRow[] {
  const shownAt = byFrequency(shown);
  const foundAt = byFrequency(found ?? []);
  const predictedAt = byFrequency(predicted ?? []);
  const merAt = new Map(shown.map((row) => [row.frequencyMhz, row.merDb ?? null]));
  const frequencies = new Set([...shownAt.keys(), ...foundAt.keys(), ...predictedAt.keys()]);
  const offsetAt = design === null ? () => 0 : nearestOffset(design, targets);
  if (design !== null) frequencies.add(design.lowMhz).add(design.highMhz);
  return [...frequencies]
    .sort((a, b) => a - b)
    .map((frequencyMhz) => {
      const inside = design !== null && frequencyMhz >= design.lowMhz && frequencyMhz <= design.highMhz;
      const target = inside ? targetDbmv(design, frequencyMhz) + offsetAt(frequencyMhz) : null;
      const off = (levelDbmv: number | null) =>
        target === null || levelDbmv === null ? null : levelDbmv - target;
      const shownDbmv = shownAt.get(frequencyMhz) ?? null;
      const predictedDbmv = predictedAt.get(frequencyMhz) ?? null;
      return {
        frequencyMhz,
        targetDbmv: target,
        bandDbmv:
          inside && target !== null ? [target - design.toleranceDb, target + design.toleranceDb] : null,
        shownDbmv,
        foundDbmv: foundAt.get(frequencyMhz) ?? null,
        predictedDbmv,
        deviationDb: off(shownDbmv),
        predictedDeviationDb: off(predictedDbmv),
        signal: targets?.get(frequencyMhz)?.signal ?? null,
        merDb: merAt.get(frequencyMhz) ?? null,
        silent: shownAt.has(frequencyMhz) && shownDbmv === null,
      };
    });
}

/** Keeps the ends, and of each stretch the rows that lie furthest up and down: the worst carriers survive. */
export function thinned(rows: readonly ChartRow[], budget = POINT_BUDGET): readonly ChartRow[] {
  if (rows.length <= budget) return rows;
  const size = Math.ceil(rows.length / Math.floor(budget / 2));
  const kept = new Set<ChartRow>();
  const first = rows[0];
  const last = rows.at(-1);
  if (first !== undefined) kept.add(first);
  if (last !== undefined) kept.add(last);
  for (let from = 0; from < rows.length; from += size) {
    let low: ChartRow | null = null;
    let high: ChartRow | null = null;
    for (const row of rows.slice(from, from + size)) {
      const at = row.deviationDb ?? row.shownDbmv ?? row.foundDbmv;
      if (at === null) continue;
      if (low === null || at < (low.deviationDb ?? low.shownDbmv ?? low.foundDbmv ?? at)) low = row;
      if (high === null || at > (high.deviationDb ?? high.shownDbmv ?? high.foundDbmv ?? at)) high = row;
    }
    if (low !== null) kept.add(low);
    if (high !== null) kept.add(high);
  }
  return rows.filter((row) => kept.has(row));
}

/** What is inside a view, and one beyond each of its ends so that lines run out of it, thinned to the budget. */
export function rowsIn(
  rows: readonly ChartRow[],
  view: Readonly<{ low: number; high: number }>,
): readonly ChartRow[] {
  const first = rows.findIndex(({ frequencyMhz }) => frequencyMhz >= view.low);
  const last = rows.findLastIndex(({ frequencyMhz }) => frequencyMhz <= view.high);
  if (first === -1 || last === -1) return [];
  return thinned(rows.slice(Math.max(0, first - 1), last + 2));
}

/** What the drawing shows, for a spreadsheet: levels in dBmV with all the digits that were read, empty where nothing was. */
export function chartCsv(rows: readonly ChartRow[]): string {
  const columns = [
    'frequencyMhz',
    'shownDbmv',
    'foundDbmv',
    'predictedDbmv',
    'targetDbmv',
    'deviationDb',
  ] as const;
  return csvOf(
    ['frequency_mhz', 'level_dbmv', 'before_dbmv', 'predicted_dbmv', 'design_dbmv', 'from_design_db'],
    rows.map((row) => columns.map((column) => digits(row[column]))),
  );
}
