import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import type { LevelRow } from '../../core/line/level-row.ts';
import { bareLevel, levelWord, mhz as mhzWords } from '../format.ts';
import type { CrossLine } from './Crosshair.tsx';
import { csvOf, digits } from './csv.ts';

/** A sweep of the overlay, the oldest first. */
export type OverlaidSweep = Readonly<{
  sweepId: string;
  /** "3 March 2025" */
  label: string;
  atMs: number;
  rows: readonly LevelRow[];
}>;

/** One sweep as it is drawn: what has a level, in rising MHz. */
export type DrawnSweep = Omit<OverlaidSweep, 'rows'> &
  Readonly<{ read: readonly Readonly<{ frequencyMhz: number; levelDbmv: number }>[] }>;

/** The sweeps that can be drawn. */
export const drawnSweeps = (sweeps: readonly OverlaidSweep[]): readonly DrawnSweep[] =>
  sweeps
    .map(({ rows, ...sweep }) => ({
      ...sweep,
      read: rows
        .flatMap(({ frequencyMhz, levelDbmv }) =>
          frequencyMhz === null || levelDbmv === null ? [] : [{ frequencyMhz, levelDbmv }],
        )
        .sort((a, b) => a.frequencyMhz - b.frequencyMhz),
    }))
    .filter(({ read }) => read.length > 0);

/** A channel with what each sweep read of it, the oldest first; null where it read nothing. */
export type OverlaidRow = Readonly<{ frequencyMhz: number; levelsDbmv: readonly (number | null)[] }>;

/** Every channel of any sweep, in rising MHz. */
export function overlaidRows(drawn: readonly DrawnSweep[]): readonly OverlaidRow[] {
  const maps = drawn.map(({ read }) => new Map(read.map((row) => [row.frequencyMhz, row.levelDbmv])));
  return [...new Set(maps.flatMap((levels) => [...levels.keys()]))]
    .sort((a, b) => a - b)
    .map((frequencyMhz) => ({
      frequencyMhz,
      levelsDbmv: maps.map((levels) => levels.get(frequencyMhz) ?? null),
    }));
}

/** What the sweeps read of one channel, the newest first, as many as there is room for. */
export const overlaidLines = (
  row: OverlaidRow,
  drawn: readonly DrawnSweep[],
  unit: LevelUnitName,
  most: number,
): readonly CrossLine[] =>
  drawn
    .flatMap(({ sweepId, label }, i): CrossLine[] => {
      const levelDbmv = row.levelsDbmv[i] ?? null;
      return levelDbmv === null ? [] : [{ key: sweepId, name: label, text: bareLevel(levelDbmv, unit) }];
    })
    .toReversed()
    .slice(0, most);

/** The same as one line, for whoever listens. */
export const overlaidWords = (row: OverlaidRow, lines: readonly CrossLine[], unit: LevelUnitName): string =>
  [mhzWords(row.frequencyMhz), ...lines.map(({ name, text }) => `${name}, ${text} ${levelWord(unit)}`)].join(
    '; ',
  );

/** The sweeps for a spreadsheet: MHz, and a column of dBmV for each. */
export const overlaidCsv = (rows: readonly OverlaidRow[], drawn: readonly DrawnSweep[]): string =>
  csvOf(
    ['frequency_mhz', ...drawn.map(({ atMs }) => `dbmv_${new Date(atMs).toISOString()}`)],
    rows.map(({ frequencyMhz, levelsDbmv }) => [frequencyMhz, ...levelsDbmv].map(digits)),
  );
