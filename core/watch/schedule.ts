/** When the rounds of a watch are due: round k at its start plus k periods, milliseconds on the wall clock. */
export type WatchPlan = Readonly<{ startedAtMs: number; everyMs: number; forMs: number | null }>;

/** What a watch does now. */
export type WatchTurn = Readonly<{
  /** So many rounds were due and not read; 0 when none was. */
  missed: number;
  /** The number of the round to be read now or next; null when the last planned one is over. */
  round: number | null;
  /** How long to wait for it, milliseconds; 0 when it is due. Never longer than one period, whatever the clock says. */
  waitMs: number;
}>;

/**
 * The last round of a watch.
 * @returns  its number, so that a day at six-hour steps has five rounds, both ends included; null for a watch without an end
 * @source   common practice, no published source (the 24-hour test at six-hour steps)
 */
export const lastRoundOf = ({ everyMs, forMs }: WatchPlan): number | null =>
  forMs === null ? null : Math.floor(forMs / everyMs + 1e-9);

/**
 * What a watch does at a moment.
 * @param next   the number of the round that comes next, were none missed
 * @param nowMs  milliseconds on the wall clock; it may have been set back or forward, and the computer may have slept
 * @returns  how many rounds are past for good, which is next, and how long until it. A round stays due until the next one
 *           is.
 * @source   common practice, no published source
 */
export function watchTurn(plan: WatchPlan, next: number, nowMs: number): WatchTurn {
  const { startedAtMs, everyMs } = plan;
  const last = lastRoundOf(plan);
  const current = Math.floor((nowMs - startedAtMs) / everyMs);
  const until = last === null ? current : Math.min(current, last + 1);
  const missed = Math.max(0, until - next);
  const round = next + missed;
  if (last !== null && round > last) return { missed, round: null, waitMs: 0 };
  const waitMs = Math.min(everyMs, Math.max(0, startedAtMs + round * everyMs - nowMs));
  return { missed, round, waitMs };
}
