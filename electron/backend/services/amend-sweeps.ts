import type { Input } from '../../../core/bridge/contract.ts';
import type { SweepSummary } from '../../../core/bridge/records.ts';
import { maybe, thousandthsOf } from '../archive/quantities.ts';
import type { SweepRow } from '../archive/sweeps.ts';
import { summaryOf } from './as-records.ts';
import { type Designs, portOf } from './designs.ts';
import type { Runs } from './runs.ts';
import { refused, type ServiceParts } from './service-parts.ts';

export type SweepAmendments = Readonly<{
  declareVoid(input: Input<'sweeps.void'>): SweepSummary;
  correct(input: Input<'sweeps.correct'>): SweepSummary;
}>;

/** What is said of a sweep after it was read: a new record each time, and the sweep itself stays as it is. */
export function createSweepAmendments(
  { archive, now, newId, log }: ServiceParts,
  designs: Designs,
  runs: Pick<Runs, 'unended'>,
): SweepAmendments {
  const summary = (sweepId: string): SweepSummary => {
    const row = archive.sweeps.byId(sweepId);
    if (row === undefined) throw new Error(`sweep ${sweepId} is gone`);
    return summaryOf(row, runs.unended(sweepId));
  };
  const counting = (sweepId: string): SweepRow => {
    const where = `sweep ${sweepId}`;
    const row = archive.sweeps.byId(sweepId);
    if (row === undefined) throw refused('no-such-sweep', where, 'it is not in this archive');
    if (row.state === null) throw refused('sweep-running', where, 'it has no end yet; let it end or stop it');
    if (row.voidReason !== null)
      throw refused('void-already', where, `it is void already: ${row.voidReason}; read the port again`);
    return row;
  };
  return {
    declareVoid({ sweepId, reason, operator }) {
      archive.write(() => {
        const { seq } = counting(sweepId);
        const said = { voidId: newId(), reason, operator, voidedAtMs: now().getTime() };
        archive.sweeps.declareVoid(seq, said);
      });
      log.info({ sweepId }, 'sweep declared void');
      return summary(sweepId);
    },
    correct({ sweepId, reason, operator, testPointLossDb, portName, purpose, ambientC }) {
      const correctedId = newId();
      archive.write(() => {
        const row = counting(sweepId);
        if (row.correctedBy !== null)
          throw refused(
            'corrected-already',
            `sweep ${sweepId}`,
            `it is corrected already, by sweep ${row.correctedBy}; correct that one, or declare it void first`,
          );
        const { station } = designs.at(row.stationId, row.revision);
        const port = portOf(station, portName ?? row.portName);
        const said = {
          testPointLossMdb:
            testPointLossDb === undefined ? row.testPointLossMdb : thousandthsOf(testPointLossDb),
          portName: port.name,
          purpose: purpose ?? row.purpose,
          ambientMc: ambientC === undefined ? row.ambientMc : maybe(ambientC, thousandthsOf),
        };
        if (
          said.testPointLossMdb === row.testPointLossMdb &&
          said.portName === row.portName &&
          said.purpose === row.purpose &&
          said.ambientMc === row.ambientMc
        )
          throw refused(
            'no-change',
            `sweep ${sweepId}`,
            'this says the same as before; change the loss, the port, the purpose or the temperature',
          );
        archive.sweeps.correct(row.seq, {
          ...said,
          sweepId: correctedId,
          hasDesign: port.design !== undefined,
          reason,
          operator,
          correctedAtMs: now().getTime(),
        });
      });
      log.info({ sweepId, correctedId }, 'sweep corrected');
      return summary(correctedId);
    },
  };
}
