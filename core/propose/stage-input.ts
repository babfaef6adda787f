import type { LineUpEntry } from '../channels/line-up.ts';
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
import { bareLevel, type LevelUnitWord, levelWord } from '../words/numbers.ts';
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
  /** The limit's frequency lies outside the input sweep: only there. */
  outsideSweep?: true;
  /** What was done to kinds of signal in the input sweep, a sentence each; only where several are there or a line-up was given. */
  moved?: readonly string[];
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

/**
 * How a stage input's limit stands, as a sentence.
 * @param figures   its note without the sentence
 * @param portName  where the stage input's sweep is taken
 * @param unit      what levels are said in
 * @source   this program's own
 */
export function stageNoteText(
  figures: Omit<StageInputNote, 'note'>,
  portName: string,
  unit: LevelUnitWord = 'dBmV',
): string {
  const said = (levelDbmv: number) => `${bareLevel(levelDbmv, unit)} ${levelWord(unit)}`;
  const { atMhz, minDbmv, maxDbmv, levelDbmv, missDb, missedLimit } = figures;
  const range = `${said(minDbmv)} to ${said(maxDbmv)} at ${atMhz} MHz`;
  if (levelDbmv === undefined)
    return `No sweep of "${portName}": the stage input's limit, ${range}, was not applied.`;
  const outside =
    figures.outsideSweep === true
      ? ` ${atMhz} MHz lies outside the input sweep: taken from the line through its two nearest rows.`
      : '';
  const moved = figures.moved === undefined ? '' : ` Of its sweep: ${figures.moved.join(' ')}`;
  const reached = `${outside}${moved}`;
  if (missDb === undefined) return `Stage input ${said(levelDbmv)}, within ${range}.${reached}`;
  const side = missedLimit === 'min' ? `below ${said(minDbmv)}` : `above ${said(maxDbmv)}`;
  return `Stage input ${said(levelDbmv)} at ${atMhz} MHz, ${missDb.toFixed(1)} dB ${side}: no combination comes nearer to its limit.${reached}`;
}

/**
 * The stage input's limit, ready for the search and for the answer.
 * @param station    with or without `stageInput`
 * @param inputRows  MHz and dBmV at its port; without them the limit is not applied, and the note says so
 * @param keepAll    take these rows as they stand
 * @param lineUp     what each channel carries: the limit is for analog carriers, as the design line is
 * @returns  limit null where none is applied, note null where the station states none; refused when the sweep has no
 *           level near the limit's frequency
 * @source   contract, section 3, "propose, exactly"
 */
export function stageInputFor(
  station: Station,
  inputRows: readonly LevelRow[] | undefined,
  keepAll: boolean | undefined,
  lineUp?: readonly LineUpEntry[] | null,
): Result<Stage, 'no-input-level'> {
  const { stageInput } = station;
  if (stageInput === undefined) return done({ limit: null, noteFor: () => null });
  const { through, atMhz, minDbmv, maxDbmv, port } = stageInput;
  const noted = (figures: Omit<StageInputNote, 'note'>): StageInputNote => ({
    ...figures,
    note: stageNoteText(figures, port),
  });
  if (inputRows === undefined)
    return done({ limit: null, noteFor: () => noted({ applied: false, atMhz, minDbmv, maxDbmv }) });
  const { used, signals } = chooseRows(inputRows, { keepAll, lineUp });
  const notes = signals?.notes ?? [];
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
      const uDb =
        conditions == null ? null : inputUncertaintyDb(used, atMhz, budgetOf(conditions), through.length);
      const chance =
        uDb === null
          ? {}
          : { uDb, probability: conformanceProbability(levelDbmv, uDb, { fromDb: minDbmv, toDb: maxDbmv }) };
      const applied = { applied: true, atMhz, minDbmv, maxDbmv, beforeDbmv, levelDbmv, ...chance };
      const found = {
        ...applied,
        ...(outside ? { outsideSweep: true as const } : {}),
        ...(notes.length > 0 ? { moved: notes } : {}),
      };
      if (missDb <= SAME_DB) return noted(found);
      return noted({ ...found, missDb, missedLimit: levelDbmv < minDbmv ? 'min' : 'max' });
    },
  });
}

/**
 * What the level at the stage input is uncertain by: the two readings that it is taken from, and the parts before it.
 * @param rows       MHz and dBmV at the input port, rising
 * @param atMhz      MHz
 * @param partCount  plug-ins between the port and the stage, each off its label by up to USUAL_PART_TOLERANCE_DB
 * @returns  standard uncertainty, dB; null where the rows lie so close together, so far away, that they tell nothing there
 * @source   JCGM 100:2008, 4.3.7 and (from memory) 5.1.2; see `betweenUncertaintyDb`
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
