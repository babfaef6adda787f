import { onNearestLine, type Point } from '../interpolate.ts';
import type { UsableRow } from '../line/usable-rows.ts';
import type { FreePosition } from './objective.ts';
import { stockedSumsDb } from './stock.ts';

const MOST_SUMS = 1e7;

/**
 * The level of an input sweep at the frequency where its limit is stated.
 * @param rows   MHz and dBmV at the input port, in rising frequency; rows at one frequency are taken as their mean
 * @param atMhz  MHz
 * @returns  dBmV on the straight line between the two nearest rows, and whether the frequency lies outside them all;
 *           null when there is no row, or only one and at another frequency
 * @source   contract, section 3, "on the straight line between the two nearest rows"; outside them the line through the
 *           two nearest goes on: common practice, no published source
 */
export function inputLevelAt(
  rows: readonly UsableRow[],
  atMhz: number,
): Readonly<{ levelDbmv: number; outside: boolean }> | null {
  const byFrequency = new Map<number, number[]>();
  for (const { frequencyMhz, levelDbmv } of rows)
    byFrequency.set(frequencyMhz, [...(byFrequency.get(frequencyMhz) ?? []), levelDbmv]);
  const points = [...byFrequency].map(
    ([frequencyMhz, levels]): Point => [
      frequencyMhz,
      levels.reduce((sum, levelDbmv) => sum + levelDbmv, 0) / levels.length,
    ],
  );
  const there = onNearestLine(points, atMhz);
  return there === null ? null : { levelDbmv: there.value, outside: there.outside };
}

/**
 * By how much the nearest combination misses a window of losses up to the stage input; exact, by sums of two halves of
 * the positions.
 * @param free       positions with their losses at the stage input's frequency, dB
 * @param minLossDb  dB
 * @param maxLossDb  dB, not below minLossDb
 * @param counts     the stock, where there is one
 * @returns  dB, 0 when some combination lies inside; null when there are too many different sums to try
 * @source   contract, section 3, "the nearest combination is given with the limit that it misses by how much"
 */
export function nearestMissDb(
  free: readonly FreePosition[],
  minLossDb: number,
  maxLossDb: number,
  counts: readonly number[] = [],
): number | null {
  if (counts.length > 0) {
    const sums = stockedSumsDb(free, counts);
    const missOf = (lossDb: number) => Math.max(minLossDb - lossDb, lossDb - maxLossDb, 0);
    return sums === null ? null : sums.reduce((missDb, lossDb) => Math.min(missDb, missOf(lossDb)), Infinity);
  }
  const first: number[][] = [];
  const second: number[][] = [];
  for (const { inputLossDb } of [...free].sort((a, b) => b.inputLossDb.length - a.inputLossDb.length))
    (sizeOf(first) <= sizeOf(second) ? first : second).push([...new Set(inputLossDb)]);
  const rising = sumsOf(first);
  const falling = sumsOf(second)?.reverse();
  if (rising === null || falling === undefined) return null;
  let missDb = Infinity;
  let at = 0;
  for (const lossDb of rising) {
    while (at + 1 < falling.length && lossDb + (falling[at + 1] ?? 0) >= minLossDb) at++;
    for (const other of [falling[at], falling[at + 1]]) {
      if (other === undefined) continue;
      missDb = Math.min(missDb, Math.max(minLossDb - lossDb - other, lossDb + other - maxLossDb, 0));
    }
  }
  return missDb;
}

const sizeOf = (lists: readonly (readonly number[])[]): number =>
  lists.reduce((size, list) => size * list.length, 1);

/** Different sums of one from each list, rising; null when their number would fill the memory of a laptop. */
function sumsOf(lists: readonly (readonly number[])[]): number[] | null {
  let sums = [0];
  for (const list of lists) {
    if (sums.length * list.length > MOST_SUMS) return null;
    sums = [...new Set(sums.flatMap((sum) => list.map((lossDb) => sum + lossDb)))];
  }
  return sums.sort((a, b) => a - b);
}
