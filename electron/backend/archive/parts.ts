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
    (proposal_id, visit, sweep, station_id, plug_ins, worst_before_mdb, worst_predicted_mdb, proposed_at, session, order_ms)
    VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`);
  const addFitting = archive.prepare(`INSERT INTO fitting
    (fitting_id, visit, station_id, revision, position, from_value, to_value, proposal, fitted_at, session, order_ms)
    VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`);
  const fittings = archive.prepare<[string], FittingRow>(
    `${FITTING} WHERE f.station_id = ? ORDER BY f.order_ms DESC, f.fitting_id DESC`,
  );
  // An equal design that another device added later says nothing new: the fittings under the first of them still count.
  const sinceDesign = archive.prepare<[Readonly<{ id: string }>], Pick<FittingRow, 'position' | 'toValue'>>(`
    WITH designs AS (SELECT design, order_ms, design_id FROM design_revision WHERE station_id = @id),
      newest AS (SELECT design FROM designs ORDER BY order_ms DESC, design_id DESC LIMIT 1),
      since AS (SELECT min(order_ms) order_ms FROM designs WHERE design = (SELECT design FROM newest) AND order_ms >
        coalesce((SELECT max(order_ms) FROM designs WHERE design <> (SELECT design FROM newest)), -1))
    SELECT position, to_value toValue FROM fitting
    WHERE station_id = @id AND order_ms > (SELECT order_ms FROM since) ORDER BY order_ms, fitting_id`);
  const proposals = archive.prepare<[string], ProposalRow>(`
    SELECT p.seq, p.proposal_id proposalId, v.visit_id visitId, s.sweep_id sweepId, p.plug_ins plugIns,
      p.worst_before_mdb worstBeforeMdb, p.worst_predicted_mdb worstPredictedMdb, p.proposed_at proposedAtMs
    FROM proposal p JOIN visit v ON v.seq = p.visit JOIN sweep s ON s.seq = p.sweep
    WHERE p.station_id = ? ORDER BY p.order_ms DESC, p.proposal_id DESC`);
  return {
    /** @returns  the proposal's `seq`, which its fittings name */
    addProposal: (proposal: NewProposal): number => {
      const seq = Number(
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
          session.order(proposal.proposedAtMs),
        ).lastInsertRowid,
      );
      session.link('proposal', seq);
      return seq;
    },
    addFitting: (fitting: NewFitting): void => {
      const { lastInsertRowid } = addFitting.run(
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
        session.order(fitting.fittedAtMs),
      );
      session.link('fitting', Number(lastInsertRowid));
    },
    /** Newest first. */
    fittingsOf: (stationId: string): readonly FittingRow[] => fittings.all(stationId),
    /** Since the newest design was added, in the order in which they were made. */
    fittedSinceDesign: (stationId: string) => sinceDesign.all({ id: stationId }),
    /** Newest first. */
    proposalsOf: (stationId: string): readonly ProposalRow[] => proposals.all(stationId),
  };
}
