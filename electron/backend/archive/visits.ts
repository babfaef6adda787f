import type { Database } from 'better-sqlite3';
import type { Session } from './session.ts';

export type VisitRow = Readonly<{
  seq: number;
  visitId: string;
  stationId: string;
  operator: string;
  ambientMc: number | null;
  cautionsReadAtMs: number;
  startedAtMs: number;
  /** Null while the visit is open. */
  endedAtMs: number | null;
  note: string | null;
}>;
export type NewVisit = Omit<VisitRow, 'seq' | 'endedAtMs' | 'note'>;

const VISIT = `SELECT v.seq, v.visit_id visitId, v.station_id stationId, v.operator, v.ambient_mc ambientMc,
  v.cautions_read_at cautionsReadAtMs, v.started_at startedAtMs, e.ended_at endedAtMs, e.note
  FROM visit v LEFT JOIN visit_end e ON e.visit = v.seq`;

/** Statements on visits. A visit's end is a row of its own. The caller owns the transaction. */
export function visitStatements(archive: Database, session: Session) {
  const add = archive.prepare(
    'INSERT INTO visit (visit_id, station_id, operator, ambient_mc, cautions_read_at, started_at, session) VALUES (?, ?, ?, ?, ?, ?, ?)',
  );
  const end = archive.prepare('INSERT INTO visit_end (visit, note, ended_at, session) VALUES (?, ?, ?, ?)');
  const byId = archive.prepare<[string], VisitRow>(`${VISIT} WHERE v.visit_id = ?`);
  const ofStation = archive.prepare<[string], VisitRow>(
    `${VISIT} WHERE v.station_id = ? ORDER BY v.seq DESC`,
  );
  const open = archive.prepare<[string], VisitRow>(
    `${VISIT} WHERE v.station_id = ? AND e.visit IS NULL ORDER BY v.seq DESC LIMIT 1`,
  );
  return {
    add: (visit: NewVisit): void => {
      add.run(
        visit.visitId,
        visit.stationId,
        visit.operator,
        visit.ambientMc,
        visit.cautionsReadAtMs,
        visit.startedAtMs,
        session.number(),
      );
    },
    end: (seq: number, note: string, endedAtMs: number): void => {
      end.run(seq, note, endedAtMs, session.number());
    },
    byId: (visitId: string): VisitRow | undefined => byId.get(visitId),
    /** Newest first. */
    ofStation: (stationId: string): readonly VisitRow[] => ofStation.all(stationId),
    openOf: (stationId: string): VisitRow | undefined => open.get(stationId),
  };
}
