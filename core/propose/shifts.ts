import type { FreePosition } from './objective.ts';
import { byOrder, SAME_DB } from './rank.ts';

/** Combinations of plug-ins that move all rows alike, with one number of changes, by rising sum. */
export type Shifts = Readonly<{
  sumDb: Float64Array;
  inputDb: Float64Array;
  padDb: Float64Array;
  indices: readonly (readonly number[])[];
}>;

/** Different sums beyond this would fill the memory of a laptop. */
const MOST_SHIFTS = 1e6;
/** More positions than a station can have, so that a number of changes fits below it. */
const MOST_POSITIONS = 1000;

type Shift = { sumDb: number; inputDb: number; padDb: number; changeCount: number; indices: number[] };

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
 * path and on the input, the one with the least pad stands for all: the others can be neither better nor preferred.
 * @param positions  positions whose candidates only shift; their losses in dB
 * @returns  index = number of changes; sums in dB, rising; null when there are too many different ones
 * @source   DEVELOPERS.md, "The chooser"
 */
export function shiftsOf(positions: readonly FreePosition[]): Shifts[] | null {
  let shifts: Shift[] = [{ sumDb: 0, inputDb: 0, padDb: 0, changeCount: 0, indices: [] }];
  for (const position of positions) {
    if (shifts.length * position.valuesDb.length > 10 * MOST_SHIFTS) return null;
    shifts = withPosition(shifts, position);
    if (shifts.length > MOST_SHIFTS) return null;
  }
  return Array.from({ length: positions.length + 1 }, (_, changeCount) => {
    const some = shifts
      .filter((shift) => shift.changeCount === changeCount)
      .sort((a, b) => a.sumDb - b.sumDb || a.inputDb - b.inputDb);
    return {
      sumDb: Float64Array.from(some, (shift) => shift.sumDb),
      inputDb: Float64Array.from(some, (shift) => shift.inputDb),
      padDb: Float64Array.from(some, (shift) => shift.padDb),
      indices: some.map((shift) => shift.indices),
    };
  });
}

function withPosition(shifts: readonly Shift[], position: FreePosition): Shift[] {
  const bySumAndInput = new Map<number, Map<number, Shift>>();
  const kept: Shift[] = [];
  for (const shift of shifts)
    position.valuesDb.forEach((valueDb, index) => {
      const next: Shift = {
        sumDb: shift.sumDb + (position.pathLossDb[index]?.[0] ?? 0),
        inputDb: shift.inputDb + (position.inputLossDb[index] ?? 0),
        padDb: shift.padDb + (position.kind === 'pad' ? valueDb : 0),
        changeCount: shift.changeCount + (index === position.nowIndex ? 0 : 1),
        indices: [...shift.indices, index],
      };
      const sumKey = Math.round(next.sumDb / SAME_DB);
      const byInput = bySumAndInput.get(sumKey) ?? new Map<number, Shift>();
      bySumAndInput.set(sumKey, byInput);
      const inputKey = Math.round(next.inputDb / SAME_DB) * MOST_POSITIONS + next.changeCount;
      const known = byInput.get(inputKey);
      if (known === undefined) {
        byInput.set(inputKey, next);
        kept.push(next);
      } else if (goesFirst(next, known)) Object.assign(known, next);
    });
  return kept;
}

const goesFirst = (a: Shift, b: Shift): boolean =>
  Math.abs(a.padDb - b.padDb) > SAME_DB ? a.padDb < b.padDb : byOrder(a.indices, b.indices) < 0;
