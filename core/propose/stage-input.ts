import type { PluggedIn, Station } from '../files/station.ts';
import { chooseRows } from '../line/choose-rows.ts';
import type { LevelRow } from '../line/level-row.ts';
import type { UsableRow } from '../line/usable-rows.ts';
import { throughLossDb } from '../plug-ins/through.ts';
import { done, type Result, refuse } from '../result.ts';
import {
  type Budget,
  betweenUncertaintyDb,
  budgetOf,
  type Conditions,
  combined,
  rectangular,
} from '../uncertainty/budget.ts';
import { conformanceProbability } from '../uncertainty/conformity.ts';
import { inputLevelAt, nearestMissDb } from './limits.ts';
import type { FreePosition } from './objective.ts';
import { USUAL_PART_TOLERANCE_DB } from './predicted-sweep.ts';
import { SAME_DB } from './rank.ts';
import type { InputWindow } from './search.ts';

/** How the stage input's limit stands with what is recommended. `missDb` only where it is missed. */
export type StageInputNote = Readonly<{
  applied: boolean;
  note: string;
  atMhz: number;
  minDbmv: number;
  maxDbmv: number;
  /** Stage input with what is in now, and with what is recommended; only where the limit is applied. */
  beforeDbmv?: number;
  levelDbmv?: number;
  missDb?: number;
  missedLimit?: 'min' | 'max';
  /** Standard uncertainty of `levelDbmv`, dB, and the chance of lying within the limit; only with an uncertainty. */
  uDb?: number;
  probability?: number;
}>;

/** The losses that the limit allows, widened by what the nearest combination misses: 0 when one meets it. */
export type StageWindow = InputWindow & Readonly<{ missDb: number }>;

export type StageLimit = Readonly<{
  through: readonly string[];
  atMhz: number;
  /** The losses that the limit allows, whether any combination has them or not. */
  allowed: InputWindow;
  /** Null when there are too many different sums to try. */
  windowFor: (free: readonly FreePosition[], counts?: readonly number[]) => StageWindow | null;
}>;
export type Stage = Readonly<{
  limit: StageLimit | null;
  noteFor: (now: PluggedIn, recommended: PluggedIn, conditions?: Conditions | null) => StageInputNote | null;
}>;

const dbmv = (levelDbmv: number): string =>
  `${levelDbmv < 0 ? '\u2212' : ''}${Math.abs(levelDbmv).toFixed(1)} dBmV`;

/**
 * The stage input's limit, ready for the search and for the answer.
 * @param station    with or without `stageInput`
 * @param inputRows  MHz and dBmV at its port; without them the limit is not applied, and the note says so
 * @param keepAll    take these rows as they stand
 * @returns  limit null where none is applied, note null where the station states none; refused when the sweep has no
 *           level near the limit's frequency
 * @source   contract, section 3, "propose, exactly"
 */
export function stageInputFor(
  station: Station,
  inputRows: readonly LevelRow[] | undefined,
  keepAll: boolean | undefined,
): Result<Stage, 'no-input-level'> {
  const { stageInput } = station;
  if (stageInput === undefined) return done({ limit: null, noteFor: () => null });
  const { through, atMhz, minDbmv, maxDbmv, port } = stageInput;
  const range = `${dbmv(minDbmv)} to ${dbmv(maxDbmv)} at ${atMhz} MHz`;
  if (inputRows === undefined) {
    const note = `No sweep of "${port}": the stage input's limit, ${range}, was not applied.`;
    return done({ limit: null, noteFor: () => ({ applied: false, note, atMhz, minDbmv, maxDbmv }) });
  }
  const used = chooseRows(inputRows, { keepAll }).used;
  const there = inputLevelAt(used, atMhz);
  if (there === null || !Number.isFinite(there.levelDbmv))
    return refuse(
      'no-input-level',
      `sweep of "${port}"`,
      `no level at ${atMhz} MHz can be told from it; read two carriers around that, or leave the sweep out`,
    );
  const { levelDbmv: atPortDbmv, outside } = there;
  const minLossDb = atPortDbmv - maxDbmv;
  const maxLossDb = atPortDbmv - minDbmv;
  return done({
    limit: {
      through,
      atMhz,
      allowed: { minLossDb, maxLossDb },
      windowFor: (free, counts) => {
        const missDb = nearestMissDb(free, minLossDb, maxLossDb, counts);
        if (missDb === null) return null;
        if (missDb <= SAME_DB) return { minLossDb, maxLossDb, missDb: 0 };
        return { minLossDb: minLossDb - missDb, maxLossDb: maxLossDb + missDb, missDb };
      },
    },
    noteFor: (now, recommended, conditions) => {
      const beforeDbmv = atPortDbmv - throughLossDb(station, through, now, atMhz);
      const levelDbmv = atPortDbmv - throughLossDb(station, through, recommended, atMhz);
      const missDb = Math.max(minDbmv - levelDbmv, levelDbmv - maxDbmv);
      const reached = outside
        ? ` ${atMhz} MHz lies outside the input sweep: taken from the line through its two nearest rows.`
        : '';
      const uDb =
        conditions == null ? null : inputUncertaintyDb(used, atMhz, budgetOf(conditions), through.length);
      const chance =
        uDb === null
          ? {}
          : { uDb, probability: conformanceProbability(levelDbmv, uDb, { fromDb: minDbmv, toDb: maxDbmv }) };
      const applied = { applied: true, atMhz, minDbmv, maxDbmv, beforeDbmv, levelDbmv, ...chance };
      if (missDb <= SAME_DB)
        return { ...applied, note: `Stage input ${dbmv(levelDbmv)}, within ${range}.${reached}` };
      const missedLimit = levelDbmv < minDbmv ? 'min' : 'max';
      const side = missedLimit === 'min' ? `below ${dbmv(minDbmv)}` : `above ${dbmv(maxDbmv)}`;
      const note = `Stage input ${dbmv(levelDbmv)} at ${atMhz} MHz, ${missDb.toFixed(1)} dB ${side}: no combination comes nearer to its limit.${reached}`;
      return { ...applied, note, missDb, missedLimit };
    },
  });
}

/**
 * What the level at the stage input is uncertain by: the two readings that it is taken from, and the parts before it.
 * @param rows       MHz and dBmV at the input port, rising
 * @param atMhz      MHz
 * @param partCount  plug-ins between the port and the stage, each off its label by up to USUAL_PART_TOLERANCE_DB
 * @returns  standard uncertainty, dB; null where the rows lie so close together, so far away, that they tell nothing there
 * @source   JCGM 100:2008, 4.3.7 and 5.1.2; see `betweenUncertaintyDb`
 */
export function inputUncertaintyDb(
  rows: readonly UsableRow[],
  atMhz: number,
  budget: Budget,
  partCount: number,
): number | null {
  const exact = rows.some(({ frequencyMhz }) => frequencyMhz === atMhz);
  const above = rows.findIndex(({ frequencyMhz }) => frequencyMhz > atMhz);
  const right = above === -1 ? rows.length - 1 : Math.max(above, 1);
  const [leftMhz, rightMhz] = [rows[right - 1]?.frequencyMhz ?? atMhz, rows[right]?.frequencyMhz ?? atMhz];
  const share = exact || leftMhz === rightMhz ? 0 : (atMhz - leftMhz) / (rightMhz - leftMhz);
  const [lowMhz, highMhz] = [rows[0]?.frequencyMhz ?? atMhz, rows.at(-1)?.frequencyMhz ?? atMhz];
  const position = lowMhz === highMhz ? 0.5 : (atMhz - lowMhz) / (highMhz - lowMhz);
  const parts = Array.from({ length: partCount }, () => rectangular(USUAL_PART_TOLERANCE_DB));
  const uDb = combined([betweenUncertaintyDb(budget, position, share), ...parts]);
  return Number.isFinite(uDb) ? uDb : null;
}
