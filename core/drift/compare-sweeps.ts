import { LEVEL } from '../checked.ts';
import type { Design } from '../files/station.ts';
import { fitLine } from '../line/fit-line.ts';
import type { LevelRow } from '../line/level-row.ts';
import { positionOf } from '../line/position.ts';
import { done, type Result, refuse } from '../result.ts';
import type { WeatherAt } from './weather-effect.ts';

export type ComparedSweep = Readonly<{ rows: readonly LevelRow[]; ambientC: number | null }>;

export type ComparedRow = Readonly<{
  frequencyMhz: number;
  earlierDbmv: number | null;
  laterDbmv: number | null;
  /** Later less earlier, dB. */
  differenceDb: number | null;
  /** What the temperatures explain of it, dB; null where the station file tells no span, or a temperature is missing. */
  weatherDb: number | null;
}>;

export type Comparison = Readonly<{
  rows: readonly ComparedRow[];
  comparedCount: number;
  meanDb: number;
  /** The difference's own straight line between the design's ends, dB at the high end less that at the low one. */
  tiltDb: number;
  worst: Readonly<{ frequencyMhz: number; differenceDb: number }>;
}>;

/** A level that is no number is none. */
const asLevel = (levelDbmv: number | null): number | null =>
  levelDbmv !== null && Math.abs(levelDbmv) <= LEVEL.to ? levelDbmv : null;

const byMhz = (rows: readonly LevelRow[]): Map<number, number | null> => {
  const map = new Map<number, number | null>();
  for (const row of rows)
    if (row.frequencyMhz !== null && Number.isFinite(row.frequencyMhz))
      map.set(row.frequencyMhz, row.unlocked === true ? null : asLevel(row.levelDbmv));
  return map;
};

/**
 * Any two sweeps against each other, channel by channel. Only channels that both read are subtracted; nothing is interpolated.
 * @param earlier  levels at the port, dBmV and MHz
 * @param later    the same
 * @param design   of the port, for the line of the difference; null: straight in f between the outermost channels
 * @param weather  what span and control explain, or null
 * @returns  every channel of either in rising MHz, mean, tilt and the largest difference in dB; refused where they have no channel
 *           in common
 * @source   a difference of two readings; its line: contract, section 3, "fit, exactly"; temperature: see `weatherOf`
 */
export function compareSweeps(
  earlier: ComparedSweep,
  later: ComparedSweep,
  design: Design | null,
  weather: WeatherAt | null,
): Result<Comparison, 'nothing-in-common'> {
  const before = byMhz(earlier.rows);
  const after = byMhz(later.rows);
  const explained = (frequencyMhz: number): number | null =>
    weather === null || earlier.ambientC === null || later.ambientC === null
      ? null
      : weather(frequencyMhz, later.ambientC) - weather(frequencyMhz, earlier.ambientC);
  const rows = [...new Set([...before.keys(), ...after.keys()])]
    .sort((a, b) => a - b)
    .map((frequencyMhz): ComparedRow => {
      const earlierDbmv = before.get(frequencyMhz) ?? null;
      const laterDbmv = after.get(frequencyMhz) ?? null;
      const differenceDb = earlierDbmv === null || laterDbmv === null ? null : laterDbmv - earlierDbmv;
      return { frequencyMhz, earlierDbmv, laterDbmv, differenceDb, weatherDb: explained(frequencyMhz) };
    });
  const both = rows.flatMap(({ frequencyMhz, differenceDb }) =>
    differenceDb === null ? [] : [{ frequencyMhz, differenceDb }],
  );
  const first = both[0];
  const last = both.at(-1);
  if (first === undefined || last === undefined)
    return refuse(
      'nothing-in-common',
      'the two sweeps',
      'they have no channel in common; choose two that were read by the same plan',
    );
  const lowMhz = design?.lowMhz ?? first.frequencyMhz;
  const highMhz = design?.highMhz ?? last.frequencyMhz;
  const line =
    lowMhz < highMhz
      ? fitLine(
          both.map(({ frequencyMhz }) =>
            positionOf(frequencyMhz, design?.shape ?? 'linear', lowMhz, highMhz),
          ),
          both.map(({ differenceDb }) => differenceDb),
        )
      : null;
  return done({
    rows,
    comparedCount: both.length,
    meanDb: both.reduce((sum, { differenceDb }) => sum + differenceDb, 0) / both.length,
    tiltDb: line?.ok === true ? line.value.tiltDb : 0,
    worst: both.reduce((worse, row) =>
      Math.abs(row.differenceDb) > Math.abs(worse.differenceDb) ? row : worse,
    ),
  });
}
