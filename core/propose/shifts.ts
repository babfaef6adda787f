import type { FreePosition } from './objective.ts';
import { byOrder, SAME_DB } from './rank.ts';
import { usesTogether } from './stock.ts';

/** Combinations of plug-ins that move all rows alike, with one number of changes, by rising sum. */
export type Shifts = Readonly<{
  sumDb: Float64Array;
  inputDb: Float64Array;
  padDb: Float64Array;
  indices: readonly (readonly number[])[];
  /** What each takes of the scarce parts; an empty list where there is none. */
  uses: readonly (readonly number[])[];
}>;

/** Different sums beyond this would fill the memory of a laptop. */
const MOST_SHIFTS = 1e6;
/** More positions than a station can have, so that a number of changes fits below it. */
const MOST_POSITIONS = 1000;

type Shift = {
  sumDb: number;
  inputDb: number;
  padDb: number;
  changeCount: number;
  indices: number[];
  use: readonly number[];
};

/**
 * Whether every candidate of a position takes as much away at one row as at another: a pad, or a plug-in off the path.
 * @returns  true when its candidates only move the whole line
 * @source   contract, section 2, "Loss of a plug-in at f": a pad's loss has no f
 */
export const onlyShifts = (position: FreePosition): boolean =>
  position.pathLossDb.every((losses) => {
    for (let i = 1; i < losses.length; i++) if (losses[i] !== losses[0]) return false;
    return true;
  });

/**
 * Every combination of the positions that only shift, grouped by number of changes. Of those with the same sum on the
 * path and on the input, and the same use of parts that other positions want too, the one with the least pad stands for
 * all: the others can be neither better nor preferred.
 * @param positions  positions whose candidates only shift; their losses in dB
 * @param counts     how many there are of each scarce part
 * @param others     the positions that do more than shift: what they use too is not settled here
 * @returns  index = number of changes; sums in dB, rising; null when there are too many different ones
 * @source   DEVELOPERS.md, "The chooser"
 */
export function shiftsOf(
  positions: readonly FreePosition[],
  counts: readonly number[] = [],
  others: readonly FreePosition[] = [],
): Shifts[] | null {
  let shifts: Shift[] = [
    { sumDb: 0, inputDb: 0, padDb: 0, changeCount: 0, indices: [], use: counts.map(() => 0) },
  ];
  for (const position of positions) {
    if (shifts.length * position.valuesDb.length > 10 * MOST_SHIFTS) return null;
    const next = new Merged(counts.length > 0);
    for (const shift of shifts)
      position.valuesDb.forEach((valueDb, index) => {
        next.add({
          sumDb: shift.sumDb + (position.pathLossDb[index]?.[0] ?? 0),
          inputDb: shift.inputDb + (position.inputLossDb[index] ?? 0),
          padDb: shift.padDb + (position.kind === 'pad' ? valueDb : 0),
          changeCount: shift.changeCount + (index === position.nowIndex ? 0 : 1),
          indices: [...shift.indices, index],
          use: usesTogether(shift.use, position.use?.[index] ?? []),
        });
      });
    shifts = next.kept;
    if (shifts.length > MOST_SHIFTS) return null;
  }
  if (counts.length > 0) shifts = settled(shifts, counts, others);
  return Array.from({ length: positions.length + 1 }, (_, changeCount) => {
    const some = shifts
      .filter((shift) => shift.changeCount === changeCount)
      .sort((a, b) => a.sumDb - b.sumDb || a.inputDb - b.inputDb);
    return {
      sumDb: Float64Array.from(some, (shift) => shift.sumDb),
      inputDb: Float64Array.from(some, (shift) => shift.inputDb),
      padDb: Float64Array.from(some, (shift) => shift.padDb),
      indices: some.map((shift) => shift.indices),
      uses: some.map((shift) => shift.use),
    };
  });
}

/** A part that no other position touches is decided here: what takes too many goes, and its use needs no telling apart. */
function settled(
  shifts: readonly Shift[],
  counts: readonly number[],
  others: readonly FreePosition[],
): Shift[] {
  const isOpen = counts.map((_, k) => others.some(({ use }) => use?.some((one) => (one[k] ?? 0) !== 0)));
  const open = isOpen.some((one) => one);
  const merged = new Merged(open);
  for (const shift of shifts)
    if (counts.every((count, k) => isOpen[k] === true || (shift.use[k] ?? 0) <= count))
      merged.add({ ...shift, use: shift.use.map((use, k) => (isOpen[k] === true ? use : 0)) });
  return merged.kept;
}

/** Keeps one for each sum, input sum, number of changes and use. */
class Merged {
  readonly kept: Shift[] = [];
  private readonly bySumAndInput = new Map<number, Map<number | string, Shift>>();
  private readonly withUse: boolean;

  constructor(withUse: boolean) {
    this.withUse = withUse;
  }

  add(next: Shift): void {
    const sumKey = Math.round(next.sumDb / SAME_DB);
    let byInput = this.bySumAndInput.get(sumKey);
    if (byInput === undefined) {
      byInput = new Map();
      this.bySumAndInput.set(sumKey, byInput);
    }
    const number = Math.round(next.inputDb / SAME_DB) * MOST_POSITIONS + next.changeCount;
    const inputKey = this.withUse ? `${number}/${next.use.join()}` : number;
    const known = byInput.get(inputKey);
    if (known === undefined) {
      byInput.set(inputKey, next);
      this.kept.push(next);
    } else if (goesFirst(next, known)) Object.assign(known, next);
  }
}

const goesFirst = (a: Shift, b: Shift): boolean =>
  Math.abs(a.padDb - b.padDb) > SAME_DB ? a.padDb < b.padDb : byOrder(a.indices, b.indices) < 0;
