import type { Design } from '../files/station.ts';
import type { LevelRow } from '../line/level-row.ts';
import {
  budgetOf,
  type Conditions,
  combined,
  differenceUncertaintyDb,
  rectangular,
} from '../uncertainty/budget.ts';
import type { NextReading } from './predicted-sweep.ts';
import { type TrimMove, trimEffect } from './trims.ts';

/**
 * Half-width, dB: how near to what was asked for a hand brings a trim. Common practice, no published source: as near as
 * a gain control is set.
 */
export const TURNED_WITHIN_DB = 0.2;

type Turned = Pick<TrimMove, 'name' | 'kind' | 'atMhz' | 'byDb'>;

/**
 * What a sweep will look like once trims were turned: each row raised by what the turns do there.
 * @param rows   MHz and dBmV at the port, any order
 * @param turns  dB at the frequency where each has its full effect
 * @returns  as many rows in the same order, levels in dBmV; rows without a level or frequency unchanged
 * @source   see `trimEffect`
 */
export function predictTurned(
  rows: readonly LevelRow[],
  design: Design,
  turns: readonly Turned[],
): LevelRow[] {
  const atMhz = rows.map(({ frequencyMhz }) => frequencyMhz ?? design.lowMhz);
  const effects = turns.map(({ name, kind, atMhz: fullMhz }) =>
    trimEffect({ name, kind, rangeDb: [0, 0], atMhz: fullMhz }, design, atMhz),
  );
  return rows.map((row, i) => {
    if (row.frequencyMhz === null || row.levelDbmv === null || !(row.frequencyMhz > 0)) return row;
    const byDb = turns.reduce((sum, turn, t) => sum + turn.byDb * (effects[t]?.[i] ?? 0), 0);
    return { ...row, levelDbmv: row.levelDbmv + byDb };
  });
}

/**
 * What the next reading is uncertain by against that: what the meter repeats to, and how near a hand brings each trim.
 * @param conditions  the meter and the temperature, fit ones
 * @returns  standard uncertainties, dB
 * @source   JCGM 100:2008, 4.3.7, 5.2.2 and (from memory) 5.1.2; see `TURNED_WITHIN_DB`
 */
export const turnedReading = (conditions: Conditions, turns: readonly Turned[]): NextReading => ({
  repeatDb: differenceUncertaintyDb(budgetOf(conditions)),
  partsDb: combined(turns.map(() => rectangular(TURNED_WITHIN_DB))),
});
