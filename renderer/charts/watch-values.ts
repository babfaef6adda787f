import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { bareMhz, level, signedDb } from '../format.ts';
import type { CrossLine } from './Crosshair.tsx';
import { csvOf, digits } from './csv.ts';
import type { DriftLine, DriftPoint } from './WatchPicture.tsx';

/** "711 pilot" */
export const lineName = ({ frequencyMhz, isPilot }: DriftLine): string =>
  `${bareMhz(frequencyMhz)}${isPilot ? ' pilot' : ''}`;

/** Where something was read, in rising order. */
export const stopsOf = (lines: readonly DriftLine[]): readonly number[] =>
  [...new Set(lines.flatMap(({ points }) => points.flatMap(({ at, db }) => (db === null ? [] : [at]))))].sort(
    (a, b) => a - b,
  );

const pointsAt = (line: DriftLine, at: number): readonly (DriftPoint & { db: number })[] =>
  line.points.filter((point): point is DriftPoint & { db: number } => point.at === at && point.db !== null);

/** What every line reads at one place: its level, or how far its levels went where the place was met more than once. */
export const watchValues = (
  lines: readonly DriftLine[],
  at: number,
  unit: LevelUnitName,
): readonly CrossLine[] =>
  lines.map((line) => {
    const read = pointsAt(line, at);
    const [low, high] = [Math.min(...read.map(({ db }) => db)), Math.max(...read.map(({ db }) => db))];
    const [one] = read;
    const text =
      one === undefined
        ? 'no level'
        : read.length > 1
          ? `${signedDb(low)} to ${signedDb(high)}`
          : `${signedDb(one.db)}${one.levelDbmv === null ? '' : `, ${level(one.levelDbmv, unit)}`}`;
    return { key: lineName(line), name: lineName(line), text };
  });

/** The readings for a spreadsheet, a row a round: levels in dBmV at the port, the air in degrees C where it was noted. */
export function watchCsv(lines: readonly DriftLine[]): string {
  const rounds = new Map<number, { ambientC: number | null; levels: Map<number, number | null> }>();
  for (const { frequencyMhz, points } of lines)
    for (const { key, ambientC, levelDbmv } of points) {
      const round = rounds.get(key) ?? { ambientC, levels: new Map() };
      rounds.set(key, round);
      round.levels.set(frequencyMhz, levelDbmv);
    }
  return csvOf(
    ['taken_at', 'air_c', ...lines.map(({ frequencyMhz }) => `${frequencyMhz}_mhz_dbmv`)],
    [...rounds]
      .sort(([a], [b]) => a - b)
      .map(([atMs, { ambientC, levels }]) => [
        new Date(atMs).toISOString(),
        digits(ambientC),
        ...lines.map(({ frequencyMhz }) => digits(levels.get(frequencyMhz) ?? null)),
      ]),
  );
}
