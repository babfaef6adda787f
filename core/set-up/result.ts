import { ambientOffsetAtC } from '../gain-control/ambient.ts';
import { type RangeTest, rangeTest } from '../gain-control/range.ts';
import { reserveAt } from '../gain-control/reserve.ts';
import { type ReserveVerdict, reserveVerdict } from '../gain-control/reserve-verdict.ts';
import { budgetOf, type Conditions } from '../uncertainty/budget.ts';
import type { SetUpPlan } from './plan.ts';
import { foundOut, type SetUpState } from './state.ts';

/** What a set-up came to. */
export type SetUpResult = Readonly<{
  /** `open` while a step is; `done` when none was skipped; else `done-with-gaps`. */
  verdict: 'open' | 'done' | 'done-with-gaps';
  /** The reserve that was left, dB below the maximum gain at the top; null where it was not measured. */
  reserveLeftDb: number | null;
  /** What the rule asks for, dB. */
  reserveAskedDb: number;
  /** The same with the compensation for the temperature that the level was set by, dB; without one where it was set by none. */
  reserveAskedThenDb: number;
  /**
   * The reserve that was left against what the rule asks for on that day; null where it was not measured, or the meter's
   * uncertainty was not given.
   */
  reserve: ReserveVerdict | null;
  range: RangeTest | null;
  /** Steps that were skipped, with their reasons. */
  skipped: readonly Readonly<{ title: string; reason: string }>[];
  /** One sentence for the record. */
  words: string;
}>;

/**
 * What a set-up came to, from how it stands.
 * @param plan   of the set-up
 * @param state  from its events
 * @param conditions  the meter's numbers in dB, fit ones; without them the reserve gets no verdict
 * @returns  the reserve that is left in dB with its verdict, the range test's verdict, and what was skipped
 * @throws   RangeError when one of the meter's numbers is none
 * @source   reserve and range: common practice, no published source; the reserve's verdict: see `reserveVerdict`
 */
export function setUpResult(
  plan: SetUpPlan,
  state: SetUpState,
  conditions: Conditions | null = null,
): SetUpResult {
  const maxDbmv = foundOut(state, 'max-gain', 'maxDbmv');
  const setForDayDbmv = foundOut(state, 'ambient', 'setDbmv');
  const setDbmv = setForDayDbmv ?? foundOut(state, 'back-off', 'setDbmv');
  const upDb = foundOut(state, 'range-test', 'upDb');
  const downDb = foundOut(state, 'range-test', 'downDb');
  const skipped = state.steps.flatMap(({ step, state: at }) =>
    at.at === 'skipped' ? [{ title: step.title, reason: at.reason }] : [],
  );
  const verdict = state.next !== null ? 'open' : skipped.length === 0 ? 'done' : 'done-with-gaps';
  const reserveLeftDb = maxDbmv === null || setDbmv === null ? null : maxDbmv - setDbmv;
  const reserveAskedDb = reserveAt(plan.topMhz).reserveDb;
  // The day's compensation is part of what is asked for only where the level was set by it.
  const setAtC = setForDayDbmv === null ? null : (foundOut(state, 'ambient', 'ambientC') ?? plan.ambientC);
  const askedDb = reserveAskedDb - (setAtC === null ? 0 : ambientOffsetAtC(setAtC).offsetDb);
  const reserve =
    reserveLeftDb === null || conditions === null
      ? null
      : reserveVerdict(reserveLeftDb, askedDb, budgetOf(conditions));
  const range = upDb === null || downDb === null ? null : rangeTest(Math.abs(upDb), Math.abs(downDb));
  const open = state.steps.filter(({ state: at }) => at.at === 'open').length;
  const words = [
    verdict === 'open' ? `${open} steps are open` : 'Every step is over',
    reserveLeftDb === null
      ? 'the reserve was not measured'
      : `${reserveLeftDb.toFixed(1)} dB of reserve are left (the rule asks for ${reserveAskedDb.toFixed(1)} before the day's compensation)`,
    ...(range === null ? [] : [`range test: ${range.verdict}`]),
    ...(skipped.length === 0 ? [] : [`${skipped.length} skipped`]),
  ].join('; ');
  return {
    verdict,
    reserveLeftDb,
    reserveAskedDb,
    reserveAskedThenDb: askedDb,
    reserve,
    range,
    skipped,
    words: `${words}.`,
  };
}
