import type { Database } from 'better-sqlite3';
import type { Session } from './session.ts';

export type ProposalRow = Readonly<{
  seq: number;
  proposalId: string;
  visitId: string;
  sweepId: string;
  /** Position to value, as JSON. */
  plugIns: string;
  worstBeforeMdb: number;
  worstPredictedMdb: number;
  proposedAtMs: number;
}>;
export type NewProposal = Omit<ProposalRow, 'seq' | 'visitId' | 'sweepId'> &
  Readonly<{ visit: number; sweep: number; stationId: string }>;

export type FittingRow = Readonly<{
  fittingId: string;
  visitId: string;
  position: string;
  fromValue: number;
  toValue: number;
  proposalId: string | null;
  fittedAtMs: number;
}>;
export type NewFitting = Omit<FittingRow, 'visitId' | 'proposalId'> &
  Readonly<{ visit: number; stationId: string; revision: number; proposal: number | null }>;

const FITTING = `SELECT f.fitting_id fittingId, v.visit_id visitId, f.position, f.from_value fromValue,
  f.to_value toValue, p.proposal_id proposalId, f.fitted_at fittedAtMs
  FROM fitting f JOIN visit v ON v.seq = f.visit LEFT JOIN proposal p ON p.seq = f.proposal`;

/** Statements on proposals and on what was plugged in where. The caller owns the transaction. */
export function partStatements(archive: Database, session: Session) {
  const addProposal = archive.prepare(`INSERT INTO proposal
    (proposal_id, visit, sweep, station_id, plug_ins, worst_before_mdb, worst_predicted_mdb, proposed_at, session)
    VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`);
  const addFitting = archive.prepare(`INSERT INTO fitting
    (fitting_id, visit, station_id, revision, position, from_value, to_value, proposal, fitted_at, session)
    VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`);
  const fittings = archive.prepare<[string], FittingRow>(
    `${FITTING} WHERE f.station_id = ? ORDER BY f.seq DESC`,
  );
  const underRevision = archive.prepare<[string, number], Pick<FittingRow, 'position' | 'toValue'>>(
    'SELECT position, to_value toValue FROM fitting WHERE station_id = ? AND revision = ? ORDER BY seq',
  );
  const proposals = archive.prepare<[string], ProposalRow>(`
    SELECT p.seq, p.proposal_id proposalId, v.visit_id visitId, s.sweep_id sweepId, p.plug_ins plugIns,
      p.worst_before_mdb worstBeforeMdb, p.worst_predicted_mdb worstPredictedMdb, p.proposed_at proposedAtMs
    FROM proposal p JOIN visit v ON v.seq = p.visit JOIN sweep s ON s.seq = p.sweep
    WHERE p.station_id = ? ORDER BY p.seq DESC`);
  return {
    /** @returns  the proposal's `seq`, which its fittings name */
    addProposal: (proposal: NewProposal): number =>
      Number(
        addProposal.run(
          proposal.proposalId,
          proposal.visit,
          proposal.sweep,
          proposal.stationId,
          proposal.plugIns,
          proposal.worstBeforeMdb,
          proposal.worstPredictedMdb,
          proposal.proposedAtMs,
          session.number(),
        ).lastInsertRowid,
      ),
    addFitting: (fitting: NewFitting): void => {
      addFitting.run(
        fitting.fittingId,
        fitting.visit,
        fitting.stationId,
        fitting.revision,
        fitting.position,
        fitting.fromValue,
        fitting.toValue,
        fitting.proposal,
        fitting.fittedAtMs,
        session.number(),
      );
    },
    /** Newest first. */
    fittingsOf: (stationId: string): readonly FittingRow[] => fittings.all(stationId),
    /** In the order in which they were made. */
    fittedUnder: (stationId: string, revision: number) => underRevision.all(stationId, revision),
    /** Newest first. */
    proposalsOf: (stationId: string): readonly ProposalRow[] => proposals.all(stationId),
  };
}
