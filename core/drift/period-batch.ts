import type { Verdict } from '../uncertainty/conformity.ts';
import type { PartChange } from './segments.ts';

/** How one sweep of a visit stood against its design. */
export type PeriodStanding = Readonly<{
  sweepId: string;
  portName: string;
  atMs: number;
  /** Null where it could not be judged; the headline then says why. */
  verdict: Verdict | null;
  headline: string;
  worstDb: number | null;
  worstMhz: number | null;
}>;

/** One visit of a period. */
export type PeriodVisit = Readonly<{
  visitId: string;
  stationId: string;
  stationName: string;
  operator: string;
  ambientC: number | null;
  startedMs: number;
  /** Null while it is open. */
  endedMs: number | null;
  note: string;
  sweepCount: number;
  /** The first as-found sweep and the last as-left one, of the port that was left; null where none was read. */
  before: PeriodStanding | null;
  after: PeriodStanding | null;
  changes: readonly PartChange[];
}>;

/** A period's visits, and what they came to: everything that a batch report prints, without a look into the archive. */
export type PeriodBatch = Readonly<{
  fromMs: number;
  /** Not included. */
  toMs: number;
  visits: readonly PeriodVisit[];
  totals: PeriodTotals;
}>;

export type PeriodTotals = Readonly<{
  visits: number;
  stations: number;
  sweeps: number;
  /** Visits whose last as-left sweep passed, failed, is undecided; and those that left none, or one that can't be judged. */
  leftPass: number;
  leftFail: number;
  leftUndecided: number;
  notLeft: number;
  /** Visits that found a station out and left it passing. */
  putRight: number;
}>;

/**
 * What the visits of a period came to.
 * @param visits  in any order; those that began outside the period are left out
 * @param fromMs  milliseconds, included
 * @param toMs    milliseconds, not included
 * @returns  the visits in the order in which they began, and their totals
 * @throws   RangeError on a period that ends before it begins
 * @source   common practice, no published source
 */
export function periodBatch(visits: readonly PeriodVisit[], fromMs: number, toMs: number): PeriodBatch {
  if (!(fromMs <= toMs)) throw new RangeError(`a period from ${fromMs} to ${toMs}`);
  const inside = visits
    .filter(({ startedMs }) => startedMs >= fromMs && startedMs < toMs)
    .sort((a, b) => a.startedMs - b.startedMs);
  const left = (verdict: Verdict) => inside.filter(({ after }) => after?.verdict === verdict).length;
  const leftPass = left('pass');
  const leftFail = left('fail');
  const leftUndecided = left('undecided');
  return {
    fromMs,
    toMs,
    visits: inside,
    totals: {
      visits: inside.length,
      stations: new Set(inside.map(({ stationId }) => stationId)).size,
      sweeps: inside.reduce((sum, { sweepCount }) => sum + sweepCount, 0),
      leftPass,
      leftFail,
      leftUndecided,
      notLeft: inside.length - leftPass - leftFail - leftUndecided,
      putRight: inside.filter(
        ({ before, after }) => before !== null && before.verdict !== 'pass' && after?.verdict === 'pass',
      ).length,
    },
  };
}
