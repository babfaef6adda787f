import type { LevelRow } from '../line/level-row.ts';
import { done, type Result, refuse } from '../result.ts';
import { combined } from '../uncertainty/budget.ts';
import { normalBelow } from '../uncertainty/normal.ts';
import { COVERAGE } from '../uncertainty/shares.ts';
import type { NextReading } from './predicted-sweep.ts';

/**
 * How far a new sweep may lie from its prediction, dB, and still count as predicted, where nothing is known of the meter
 * and the parts. The worst of more than a hundred differences between two sweeps: twice what a meter repeats to, and
 * about half of the smallest step of a plug-in kit, so that a part of the wrong value or one not seated stands out.
 * Common practice, no published source.
 */
export const AGREES_WITHIN_DB = 0.5;
/** What a meter repeats to, dB, and no prediction is held to less: the slack of contract section 3. */
export const REPEATS_WITHIN_DB = 0.25;
/** Of so many sweeps that do lie as predicted, one may seem not to. */
const AS_PREDICTED = 0.95;

export type HeldAgainst = Readonly<{
  /** Measured less predicted where the two are furthest apart, dB, with its sign. */
  worstDb: number;
  worstMhz: number;
  /** The mean of measured less predicted, dB: what a wrong pad would show. */
  meanDb: number;
  comparedCount: number;
  /** How far the worst one may lie off, dB: from the prediction's own uncertainty, or AGREES_WITHIN_DB. */
  withinDb: number;
  agrees: boolean;
}>;

/** So many standard deviations hold the farthest of some independent normal deviations, 95 of 100 times. */
function farthestOf(count: number): number {
  const each = AS_PREDICTED ** (1 / count);
  let from = 0;
  let to = 10;
  for (let halving = 0; halving < 40; halving++) {
    const middle = (from + to) / 2;
    if (1 - 2 * normalBelow(-middle) < each) from = middle;
    else to = middle;
  }
  return to;
}

/**
 * How far the worst of some channels may lie off its prediction. What the meter repeats to is another at each channel, so
 * the farthest of them counts; the parts move neighbours alike, so 95 of 100 is theirs once.
 * @param next   standard uncertainties, dB
 * @param count  channels compared, 1 or more
 * @returns  dB, never below REPEATS_WITHIN_DB
 * @throws   RangeError when a number is none: both come from checked records
 * @source   JCGM 100:2008, 5.1.2 (from memory); the farthest of n independent ones: the distribution of an extreme, P(one)^n
 */
export function agreesWithinDb({ repeatDb, partsDb }: NextReading, count: number): number {
  if (!(repeatDb >= 0 && partsDb >= 0 && count >= 1 && Number.isFinite(repeatDb + partsDb + count)))
    throw new RangeError(`no limit for ${count} channels from ${repeatDb} and ${partsDb} dB`);
  return Math.max(REPEATS_WITHIN_DB, combined([farthestOf(count) * repeatDb, COVERAGE * partsDb]));
}

/**
 * Holds the sweep after the parts were fitted against what they were predicted to give.
 * @param predicted  rows at the port, MHz and dBmV
 * @param measured   rows at the port, MHz and dBmV; only frequencies that both have are compared
 * @param next       what the prediction is uncertain by, as `nextReading` made it; null where it is not known
 * @returns  the largest and the mean difference in dB, or a refusal when no frequency is in both
 * @source   common practice, no published source; the limit: `agreesWithinDb`, else AGREES_WITHIN_DB
 */
export function heldAgainst(
  predicted: readonly LevelRow[],
  measured: readonly LevelRow[],
  next: NextReading | null = null,
): Result<HeldAgainst, 'nothing-in-common'> {
  const predictedDbmv = new Map<number, number>();
  for (const row of predicted)
    if (row.frequencyMhz !== null && row.levelDbmv !== null && Number.isFinite(row.levelDbmv))
      predictedDbmv.set(row.frequencyMhz, row.levelDbmv);
  let sumDb = 0;
  let count = 0;
  let worst: { db: number; mhz: number } | null = null;
  for (const row of measured) {
    if (row.frequencyMhz === null || row.levelDbmv === null || row.unlocked === true) continue;
    const expectedDbmv = predictedDbmv.get(row.frequencyMhz);
    if (expectedDbmv === undefined) continue;
    const db = row.levelDbmv - expectedDbmv;
    // A level that is no number is none; so is one too large to be subtracted.
    if (!Number.isFinite(db) || !Number.isFinite(sumDb + db)) continue;
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
  const withinDb = next === null ? AGREES_WITHIN_DB : agreesWithinDb(next, count);
  return done({
    worstDb: worst.db,
    worstMhz: worst.mhz,
    meanDb: sumDb / count,
    comparedCount: count,
    withinDb,
    // Compared after rounding to a thousandth, so that 0.5 dB read as 0.5000000000000004 still agrees.
    agrees: Math.round(Math.abs(worst.db) * 1000) <= Math.round(withinDb * 1000),
  });
}
