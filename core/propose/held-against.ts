import type { LevelRow } from '../line/level-row.ts';
import { done, type Result, refuse } from '../result.ts';

/**
 * How far a new sweep may lie from its prediction, dB, and still count as predicted. The worst of more than a hundred
 * differences between two sweeps: twice what a meter repeats to (0.25 dB, the slack of contract section 3), and about
 * half of the smallest step of a plug-in kit, so that a part of the wrong value or one not seated stands out.
 * Common practice, no published source.
 */
export const AGREES_WITHIN_DB = 0.5;

export type HeldAgainst = Readonly<{
  /** Measured less predicted where the two are furthest apart, dB, with its sign. */
  worstDb: number;
  worstMhz: number;
  /** The mean of measured less predicted, dB: what a wrong pad would show. */
  meanDb: number;
  comparedCount: number;
  agrees: boolean;
}>;

/**
 * Holds the sweep after the parts were fitted against what they were predicted to give.
 * @param predicted  rows at the port, MHz and dBmV
 * @param measured   rows at the port, MHz and dBmV; only frequencies that both have are compared
 * @returns  the largest and the mean difference in dB, or a refusal when no frequency is in both
 * @source   common practice, no published source; the limit is AGREES_WITHIN_DB
 */
export function heldAgainst(
  predicted: readonly LevelRow[],
  measured: readonly LevelRow[],
): Result<HeldAgainst, 'nothing-in-common'> {
  const predictedDbmv = new Map<number, number>();
  for (const row of predicted)
    if (row.frequencyMhz !== null && row.levelDbmv !== null)
      predictedDbmv.set(row.frequencyMhz, row.levelDbmv);
  let sumDb = 0;
  let count = 0;
  let worst: { db: number; mhz: number } | null = null;
  for (const row of measured) {
    if (row.frequencyMhz === null || row.levelDbmv === null || row.unlocked === true) continue;
    const expectedDbmv = predictedDbmv.get(row.frequencyMhz);
    if (expectedDbmv === undefined) continue;
    const db = row.levelDbmv - expectedDbmv;
    sumDb += db;
    count += 1;
    if (worst === null || Math.abs(db) > Math.abs(worst.db)) worst = { db, mhz: row.frequencyMhz };
  }
  if (worst === null)
    return refuse(
      'nothing-in-common',
      `${measured.length} readings`,
      'read the same channels as before, so that the two sweeps can be compared',
    );
  return done({
    worstDb: worst.db,
    worstMhz: worst.mhz,
    meanDb: sumDb / count,
    comparedCount: count,
    // Compared after rounding to a thousandth, so that 0.5 dB read as 0.5000000000000004 still agrees.
    agrees: Math.round(Math.abs(worst.db) * 1000) <= AGREES_WITHIN_DB * 1000,
  });
}
