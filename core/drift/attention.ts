import type { Verdict } from '../uncertainty/conformity.ts';
import type { StationDrift } from './station-drift.ts';

/** The lists that a station may be on. */
export const attentionLists = ['due', 'drifting', 'undecided', 'never-left'] as const;
export type AttentionList = (typeof attentionLists)[number];

/** Once a year; common practice, no published source. The settings may say otherwise. */
export const VISIT_EVERY_MONTHS = 12;

const MONTH_MS = (365.25 / 12) * 86_400_000;

/**
 * Whether a station is due: never visited, or not since so many months.
 * @param lastVisitMs  when its newest visit began, milliseconds; null where there was none
 * @param nowMs        milliseconds
 * @param everyMonths  above 0
 * @returns  true when somebody should go
 * @throws   RangeError on an interval that is none
 * @source   the interval is common practice, no published source
 */
export function isDue(lastVisitMs: number | null, nowMs: number, everyMonths: number): boolean {
  if (!(everyMonths > 0)) throw new RangeError(`a visit every ${everyMonths} months`);
  return lastVisitMs === null || nowMs - lastVisitMs > everyMonths * MONTH_MS;
}

export type AttentionFacts = Readonly<{
  lastVisitMs: number | null;
  openVisit: boolean;
  /** Of the newest sweep; null where there is none, or it can't be judged. */
  verdict: Verdict | null;
  sweepCount: number;
  /** Null while it isn't known. */
  leftAsDesigned: boolean | null;
  drift: StationDrift['state'] | null;
  /** True where nobody is sent: then it is on no list. */
  outOfService: boolean;
}>;

/**
 * The lists that a station is on. `never-left`: it was swept, and no as-left sweep ever passed. A visit that is open is being seen
 * to and is not due.
 * @param nowMs        milliseconds
 * @param everyMonths  above 0
 * @returns  in the order of `attentionLists`
 * @source   common practice, no published source
 */
export function listsOf(facts: AttentionFacts, nowMs: number, everyMonths: number): readonly AttentionList[] {
  if (facts.outOfService) return [];
  const on: Readonly<Record<AttentionList, boolean>> = {
    due: !facts.openVisit && isDue(facts.lastVisitMs, nowMs, everyMonths),
    drifting: facts.drift === 'drifting',
    undecided: facts.verdict === 'undecided',
    'never-left': facts.sweepCount > 0 && facts.leftAsDesigned === false,
  };
  return attentionLists.filter((list) => on[list]);
}
