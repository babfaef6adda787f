import { z } from 'zod';
import {
  type Fitting,
  MeterIdentity,
  type Reading,
  type StoredProposal,
  type SweepSummary,
  type Visit,
} from '../../../core/bridge/records.ts';
import type { FittingRow, ProposalRow } from '../archive/parts.ts';
import { fromThousandths, hzOf, maybe, mhzOf, momentOf, msOf, thousandthsOf } from '../archive/quantities.ts';
import type { ReadingRow, SweepRow } from '../archive/sweeps.ts';
import type { VisitRow } from '../archive/visits.ts';

const Values = z.record(z.string(), z.number());

/** Beyond these nothing is a level or a frequency, whatever a meter or a file says; the archive takes no more either. */
export const MOST_DBMV = 1000;
export const MOST_MHZ = 1_000_000;

/**
 * What the archive keeps of a reading.
 * @throws  RangeError for what no record can hold, so that it never spoils the readings that it is kept with
 */
export function readingRowOf(reading: Reading): ReadingRow {
  const row: ReadingRow = {
    frequencyHz: hzOf(reading.frequencyMhz),
    meterMdbmv: maybe(reading.meterDbmv, thousandthsOf),
    kind: reading.kind,
    takenAtMs: msOf(reading.takenAt),
  };
  if (Math.abs(reading.meterDbmv ?? 0) > MOST_DBMV)
    throw new RangeError(`the meter said ${reading.meterDbmv} dBmV, which no cable carries`);
  if (row.frequencyHz < 1 || reading.frequencyMhz > MOST_MHZ)
    throw new RangeError(`the meter said ${reading.frequencyMhz} MHz, which no cable carries`);
  if (row.takenAtMs < 0) throw new RangeError(`the clock says ${reading.takenAt}; set it`);
  return row;
}

export const readingOf = (row: ReadingRow): Reading => ({
  frequencyMhz: mhzOf(row.frequencyHz),
  meterDbmv: maybe(row.meterMdbmv, fromThousandths),
  kind: row.kind,
  takenAt: momentOf(row.takenAtMs),
});

export const visitOf = (row: VisitRow): Visit => ({
  visitId: row.visitId,
  stationId: row.stationId,
  operator: row.operator,
  ambientC: maybe(row.ambientMc, fromThousandths),
  startedAt: momentOf(row.startedAtMs),
  endedAt: maybe(row.endedAtMs, momentOf),
  cautionsReadAt: momentOf(row.cautionsReadAtMs),
  note: row.note ?? '',
});

export const fittingOf = (row: FittingRow): Fitting => ({
  fittingId: row.fittingId,
  visitId: row.visitId,
  at: momentOf(row.fittedAtMs),
  change: { position: row.position, from: row.fromValue, to: row.toValue },
  proposalId: row.proposalId,
});

export const proposalOf = (row: ProposalRow): StoredProposal => ({
  proposalId: row.proposalId,
  visitId: row.visitId,
  at: momentOf(row.proposedAtMs),
  note: {
    sweepId: row.sweepId,
    values: Values.parse(JSON.parse(row.plugIns)),
    worstBeforeDb: fromThousandths(row.worstBeforeMdb),
    worstPredictedDb: fromThousandths(row.worstPredictedMdb),
  },
});

/** How a sweep stands that has no end in the archive: it runs, or its end could not be written. */
export type Unended = Readonly<{
  state: 'recording' | 'partial';
  reason: string | null;
  endedAtMs: number | null;
}>;

export const summaryOf = (row: SweepRow, unended: Unended): SweepSummary => ({
  sweepId: row.sweepId,
  visitId: row.visitId,
  stationId: row.stationId,
  revision: row.revision,
  portName: row.portName,
  purpose: row.purpose,
  state: row.state ?? unended.state,
  source: row.source,
  sourceName: row.sourceName,
  meter: row.meter === null ? null : MeterIdentity.parse(JSON.parse(row.meter)),
  testPointLossDb: fromThousandths(row.testPointLossMdb),
  ambientC: maybe(row.ambientMc, fromThousandths),
  startedAt: momentOf(row.startedAtMs),
  endedAt: maybe(row.state === null ? unended.endedAtMs : row.endedAtMs, momentOf),
  plannedCount: row.plannedCount,
  readingCount: row.readingCount,
  endReason: row.state === null ? unended.reason : row.reason,
  pluggedIn: Values.parse(JSON.parse(row.pluggedIn)),
  voided:
    row.voidReason === null
      ? null
      : {
          reason: row.voidReason,
          operator: row.voidOperator ?? '',
          at: momentOf(row.voidedAtMs ?? row.startedAtMs),
        },
  corrects:
    row.corrects === null
      ? null
      : {
          sweepId: row.corrects,
          reason: row.correctionReason ?? '',
          operator: row.correctionOperator ?? '',
          at: momentOf(row.correctedAtMs ?? row.startedAtMs),
        },
  correctedBy: row.correctedBy,
});
