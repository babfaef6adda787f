/** How many of each: days and weeks in a row, and first ones of a month. */
export const KEPT = { days: 7, weeks: 5, months: 12 } as const;

const DAY_MS = 86_400_000;
/** 1 January 1970 was a Thursday; weeks begin on Monday. */
const weekOf = (day: number): number => Math.floor((day + 3) / 7);
const monthOf = (ms: number): string => new Date(ms).toISOString().slice(0, 7);

/**
 * Which backups stay when a new one was verified: of each of the last days and weeks the newest, of each of the last
 * months the first, and the newest of all in any case. Days, weeks and months in which none was made don't count.
 * @param madeAtMs      when each was made, in ms since 1970 UTC; any order
 * @param utcOffsetMin  how far the wall clock is ahead of UTC, in minutes: a day ends at midnight there
 * @returns  the times that stay, newest first
 * @source   daily, weekly, monthly generations: common practice, no published source
 */
export function backupsToKeep(madeAtMs: readonly number[], utcOffsetMin: number): readonly number[] {
  const newestFirst = [...new Set(madeAtMs)].toSorted((a, b) => b - a);
  const local = (ms: number) => ms + utcOffsetMin * 60_000;
  const dayOf = (ms: number) => Math.floor(local(ms) / DAY_MS);
  const kept = new Set(newestFirst.slice(0, 1));
  const keepOneOfEach = (order: readonly number[], key: (ms: number) => string | number, most: number) => {
    const one = new Map<string | number, number>();
    for (const ms of order) if (!one.has(key(ms))) one.set(key(ms), ms);
    for (const ms of [...one.values()].toSorted((a, b) => b - a).slice(0, most)) kept.add(ms);
  };
  keepOneOfEach(newestFirst, dayOf, KEPT.days);
  keepOneOfEach(newestFirst, (ms) => weekOf(dayOf(ms)), KEPT.weeks);
  keepOneOfEach(newestFirst.toReversed(), (ms) => monthOf(local(ms)), KEPT.months);
  return newestFirst.filter((ms) => kept.has(ms));
}
