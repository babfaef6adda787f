import type { FreePosition, Objective } from './objective.ts';
import { byWorstThenPad, type Found, SAME_DB } from './rank.ts';
import { onlyShifts, type Shifts, shiftsOf } from './shifts.ts';
import { isWithinStock, usesTogether } from './stock.ts';

/** Sum of losses up to the stage input that its limit allows, both ends included. */
export type InputWindow = Readonly<{ minLossDb: number; maxLossDb: number }>;

/** About three seconds of a slow laptop. */
const MOST_STEPS = 3e9;

/**
 * The first few combinations for each number of changes, exactly.
 *
 * Pads only move all rows alike, so for a combination of the other plug-ins the worst channel is half of peak to valley
 * plus how far the pads leave the middle from 0. So the rows are walked once for each combination of the others, and the
 * pads are looked up by their sum, nearest first. A branch of the others is left when even the losses still open, each
 * at its best for each row, can't bring peak to valley down to what is already found.
 * @param objective  deviations and losses in dB, one row or more
 * @param window     what the stage input allows, dB; null when it has no say
 * @param keep       how many to keep for each number of changes, one or more
 * @param mostSteps  rows and pads looked at before giving up
 * @returns  index = number of changes; each list in the order of byWorstThenPad; null when it would take too long
 * @source   contract, section 3, `best` and `recommended`; DEVELOPERS.md, "The chooser"
 */
export function searchCombinations(
  objective: Objective,
  window: InputWindow | null,
  keep: number,
  mostSteps: number = MOST_STEPS,
): readonly (readonly Found[])[] | null {
  const counts = objective.counts ?? [];
  const shifting = objective.free.filter(onlyShifts);
  const others = counts.length === 0 ? [] : objective.free.filter((position) => !onlyShifts(position));
  const shifts = shiftsOf(shifting, counts, others);
  if (shifts === null) return null;
  const search = new Search(objective, shifts, window, keep, mostSteps);
  return search.descend(0, 0, 0, 0) ? search.lists : null;
}

class Search {
  readonly lists: Found[][];
  private readonly free: readonly FreePosition[];
  private readonly shaped: readonly FreePosition[];
  /** Where each shaped, and each shifting position stands among the free ones. */
  private readonly shapedAt: readonly number[];
  private readonly shiftingAt: readonly number[];
  private readonly shifts: readonly Shifts[];
  private readonly chosen: number[];
  /** Deviations at each depth, with the losses chosen so far taken away. */
  private readonly offDb: readonly Float64Array[];
  /** Least and most that the positions from a depth on can still take away at each row. */
  private readonly openMinDb: readonly Float64Array[];
  private readonly openMaxDb: readonly Float64Array[];
  /** Per number of changes: a worst channel above this is of no interest any more. */
  private readonly limitDb: Float64Array;
  private readonly keep: number;
  private readonly minLossDb: number;
  private readonly maxLossDb: number;
  private stepsLeft: number;
  private readonly counts: readonly number[];
  /** At each depth what the positions chosen so far take of the scarce parts. */
  private readonly uses: (readonly number[])[];

  constructor(
    objective: Objective,
    shifts: readonly Shifts[],
    window: InputWindow | null,
    keep: number,
    mostSteps: number,
  ) {
    this.shifts = shifts;
    this.free = objective.free;
    this.keep = keep;
    this.counts = objective.counts ?? [];
    this.stepsLeft = mostSteps;
    this.minLossDb = (window?.minLossDb ?? -Infinity) - SAME_DB;
    this.maxLossDb = (window?.maxLossDb ?? Infinity) + SAME_DB;
    const shifting = objective.free.map(onlyShifts);
    this.shapedAt = shifting.flatMap((only, at) => (only ? [] : [at]));
    this.shiftingAt = shifting.flatMap((only, at) => (only ? [at] : []));
    this.shaped = objective.free.filter((_, at) => shifting[at] === false);
    this.chosen = this.shaped.map(() => 0);
    this.lists = Array.from({ length: objective.free.length + 1 }, () => []);
    this.limitDb = new Float64Array(objective.free.length + 1).fill(Infinity);
    this.uses = [this.counts.map(() => 0), ...this.shaped.map(() => [])];
    const rowCount = objective.bareDb.length;
    this.offDb = [objective.bareDb, ...this.shaped.map(() => new Float64Array(rowCount))];
    const open = openLosses(this.shaped, rowCount);
    this.openMinDb = open.minDb;
    this.openMaxDb = open.maxDb;
  }

  /** Tries every candidate of the shaped position at this depth; false when the steps are used up. */
  descend(depth: number, changeCount: number, inputDb: number, padDb: number): boolean {
    const here = this.offDb[depth];
    const position = this.shaped[depth];
    if (here === undefined) return true;
    if (position === undefined) return this.leaf(here, changeCount, inputDb, padDb);
    const next = this.offDb[depth + 1];
    if (next === undefined) return true;
    for (let index = 0; index < position.valuesDb.length; index++) {
      const losses = position.pathLossDb[index];
      if (losses === undefined) continue;
      this.stepsLeft -= here.length;
      if (this.stepsLeft < 0) return false;
      const changes = changeCount + (index === position.nowIndex ? 0 : 1);
      const atLeastDb = this.takeAway(here, losses, next, depth + 1);
      if (atLeastDb > this.loosestLimitDb(changes, changes + this.shaped.length - depth - 1)) continue;
      this.chosen[depth] = index;
      if (this.counts.length > 0)
        this.uses[depth + 1] = usesTogether(this.uses[depth] ?? [], position.use?.[index] ?? []);
      const pad = position.kind === 'pad' ? (position.valuesDb[index] ?? 0) : 0;
      const input = position.inputLossDb[index] ?? 0;
      if (!this.descend(depth + 1, changes, inputDb + input, padDb + pad)) return false;
    }
    return true;
  }

  /** next = here - losses; returns what the worst channel must at least come to, whatever is still open. */
  private takeAway(here: Float64Array, losses: Float64Array, next: Float64Array, depth: number): number {
    const openMinDb = this.openMinDb[depth];
    const openMaxDb = this.openMaxDb[depth];
    if (openMinDb === undefined || openMaxDb === undefined) return 0;
    let highestDb = -Infinity;
    let lowestDb = Infinity;
    for (let i = 0; i < here.length; i++) {
      const off = (here[i] as number) - (losses[i] as number);
      next[i] = off;
      const least = off - (openMaxDb[i] as number);
      const most = off - (openMinDb[i] as number);
      if (least > highestDb) highestDb = least;
      if (most < lowestDb) lowestDb = most;
    }
    return (highestDb - lowestDb) / 2;
  }

  private loosestLimitDb(fewest: number, mostShaped: number): number {
    let loosestDb = 0;
    const most = mostShaped + this.shiftingAt.length;
    for (let k = fewest; k <= most; k++) loosestDb = Math.max(loosestDb, this.limitDb[k] ?? 0);
    return loosestDb;
  }

  /** All shaped positions are chosen: the pads, nearest to the middle first. */
  private leaf(off: Float64Array, changeCount: number, inputDb: number, padDb: number): boolean {
    let maxDb = -Infinity;
    let minDb = Infinity;
    for (let i = 0; i < off.length; i++) {
      const value = off[i] as number;
      if (value > maxDb) maxDb = value;
      if (value < minDb) minDb = value;
    }
    const middleDb = (maxDb + minDb) / 2;
    const halfDb = (maxDb - minDb) / 2;
    for (let more = 0; more < this.shifts.length; more++) {
      const shifts = this.shifts[more];
      if (shifts === undefined || halfDb > (this.limitDb[changeCount + more] ?? 0)) continue;
      const start = firstAtLeast(shifts.sumDb, middleDb);
      for (let i = start; i < shifts.sumDb.length; i++)
        if (!this.tryShift(shifts, i, middleDb, halfDb, changeCount + more, inputDb, padDb)) break;
      for (let i = start - 1; i >= 0; i--)
        if (!this.tryShift(shifts, i, middleDb, halfDb, changeCount + more, inputDb, padDb)) break;
    }
    return this.stepsLeft >= 0;
  }

  /** False when this one, and so every farther one, is of no interest. */
  private tryShift(
    shifts: Shifts,
    i: number,
    middleDb: number,
    halfDb: number,
    changeCount: number,
    inputDb: number,
    padDb: number,
  ): boolean {
    this.stepsLeft--;
    const worstDb = Math.abs(middleDb - (shifts.sumDb[i] as number)) + halfDb;
    if (worstDb > (this.limitDb[changeCount] as number)) return false;
    const allInputDb = inputDb + (shifts.inputDb[i] as number);
    if (allInputDb < this.minLossDb || allInputDb > this.maxLossDb) return this.stepsLeft >= 0;
    if (this.counts.length > 0) {
      const use = usesTogether(this.uses.at(-1) ?? [], shifts.uses[i] ?? []);
      if (!isWithinStock(use, this.counts)) return this.stepsLeft >= 0;
    }
    this.insert({
      worstDb,
      changeCount,
      padDb: padDb + (shifts.padDb[i] as number),
      indices: this.indicesOf(shifts.indices[i] ?? []),
    });
    return true;
  }

  private indicesOf(shifting: readonly number[]): number[] {
    const indices = this.free.map(() => 0);
    this.shapedAt.forEach((at, i) => {
      indices[at] = this.chosen[i] ?? 0;
    });
    this.shiftingAt.forEach((at, i) => {
      indices[at] = shifting[i] ?? 0;
    });
    return indices;
  }

  private insert(found: Found): void {
    const list = this.lists[found.changeCount];
    if (list === undefined) return;
    let at = list.length;
    while (at > 0 && byWorstThenPad(found, list[at - 1] ?? found) < 0) at--;
    if (at >= this.keep) return;
    list.splice(at, 0, found);
    if (list.length > this.keep) list.pop();
    const last = list[this.keep - 1];
    if (last !== undefined) this.limitDb[found.changeCount] = last.worstDb + 2 * SAME_DB;
  }
}

/** Sums over the positions from each depth on of the least and the most that one can take away at each row. */
function openLosses(shaped: readonly FreePosition[], rowCount: number) {
  const minDb = Array.from({ length: shaped.length + 1 }, () => new Float64Array(rowCount));
  const maxDb = Array.from({ length: shaped.length + 1 }, () => new Float64Array(rowCount));
  for (let depth = shaped.length - 1; depth >= 0; depth--) {
    const leastDb = new Float64Array(rowCount).fill(Infinity);
    const mostDb = new Float64Array(rowCount).fill(-Infinity);
    for (const losses of shaped[depth]?.pathLossDb ?? [])
      for (let i = 0; i < rowCount; i++) {
        const loss = losses[i] as number;
        if (loss < (leastDb[i] as number)) leastDb[i] = loss;
        if (loss > (mostDb[i] as number)) mostDb[i] = loss;
      }
    minDb[depth] = leastDb.map((loss, i) => loss + (minDb[depth + 1]?.[i] ?? 0));
    maxDb[depth] = mostDb.map((loss, i) => loss + (maxDb[depth + 1]?.[i] ?? 0));
  }
  return { minDb, maxDb };
}

function firstAtLeast(rising: Float64Array, wantedDb: number): number {
  let low = 0;
  let high = rising.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((rising[middle] as number) < wantedDb) low = middle + 1;
    else high = middle;
  }
  return low;
}
