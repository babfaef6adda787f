import type { Reading } from '../../../core/bridge/records.ts';
import { isDoubtful, isSameReading, meanLevel, middleReading } from '../../../core/meters/repeated-level.ts';

/** How carefully each frequency is read: so many readings make one, and a doubtful one is asked again. */
export type Manner = Readonly<{ repeats: number; recheck: boolean }>;

/** One question, one reading: what a level that is watched live needs. */
export const plainly: Manner = { repeats: 1, recheck: false };

/**
 * A reading that stands for `repeats` of them, their mean. A doubtful one is asked again: it is kept when the second says
 * the same, and else the middle of three counts.
 * @param next        puts the question once
 * @param beforeDbmv  the level of the channel before; undefined where there is none
 */
export async function readCarefully(
  next: () => Promise<Reading>,
  beforeDbmv: number | null | undefined,
  { repeats, recheck }: Manner,
): Promise<Reading> {
  const averaged = async (): Promise<Reading> => {
    let reading = await next();
    const levels = [reading.meterDbmv];
    while (levels.length < repeats) {
      reading = await next();
      levels.push(reading.meterDbmv);
    }
    return { ...reading, meterDbmv: meanLevel(levels) };
  };
  const first = await averaged();
  if (!recheck || !isDoubtful(first.meterDbmv, beforeDbmv)) return first;
  const second = await averaged();
  if (isSameReading(first.meterDbmv, second.meterDbmv)) return first;
  const third = await averaged();
  return { ...third, meterDbmv: middleReading([first.meterDbmv, second.meterDbmv, third.meterDbmv]) };
}
