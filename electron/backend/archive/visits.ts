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
  /** Begun on this device; another's is looked at here, and neither gone on with nor ended. */
  own: 0 | 1;
}>;
export type MadeIn = Readonly<{ timeZone: string; utcOffsetMin: number; program: string }>;
export type NewVisit = Omit<VisitRow, 'seq' | 'endedAtMs' | 'note' | 'own'>;

const VISIT = `SELECT v.seq, v.visit_id visitId, v.station_id stationId, v.operator, v.ambient_mc ambientMc,
  v.cautions_read_at cautionsReadAtMs, v.started_at startedAtMs, e.ended_at endedAtMs, e.note,
  x.device = (SELECT o.device FROM own_device o ORDER BY o.seq DESC LIMIT 1) own
  FROM visit v JOIN session x ON x.seq = v.session LEFT JOIN visit_end e ON e.visit = v.seq`;

/** Statements on visits. A visit's end is a row of its own. The caller owns the transaction. */
export function visitStatements(archive: Database, session: Session) {
  const add = archive.prepare(
    'INSERT INTO visit (visit_id, station_id, operator, ambient_mc, cautions_read_at, started_at, session, order_ms) VALUES (?, ?, ?, ?, ?, ?, ?, ?)',
  );
  const end = archive.prepare('INSERT INTO visit_end (visit, note, ended_at, session) VALUES (?, ?, ?, ?)');
  const byId = archive.prepare<[string], VisitRow>(`${VISIT} WHERE v.visit_id = ?`);
  const ofStation = archive.prepare<[string], VisitRow>(
    `${VISIT} WHERE v.station_id = ? ORDER BY v.order_ms DESC, v.visit_id DESC`,
  );
  const open = archive.prepare<[string], VisitRow>(
    `${VISIT} WHERE v.station_id = ? AND e.visit IS NULL AND own ORDER BY v.order_ms DESC LIMIT 1`,
  );
  const madeIn = archive.prepare<[string], MadeIn>(
    `SELECT x.time_zone timeZone, x.utc_offset_min utcOffsetMin, x.program
     FROM visit v JOIN session x ON x.seq = v.session WHERE v.visit_id = ?`,
  );
  return {
    add: (visit: NewVisit): void => {
      const { lastInsertRowid } = add.run(
        visit.visitId,
        visit.stationId,
        visit.operator,
        visit.ambientMc,
        visit.cautionsReadAtMs,
        visit.startedAtMs,
        session.number(),
        session.order(visit.startedAtMs),
      );
      session.link('visit', Number(lastInsertRowid));
    },
    end: (seq: number, note: string, endedAtMs: number): void => {
      end.run(seq, note, endedAtMs, session.number());
      session.link('visit-end', seq);
    },
    byId: (visitId: string): VisitRow | undefined => byId.get(visitId),
    /** Where the clock stood, and which program it was, when the visit was begun. */
    madeIn: (visitId: string): MadeIn | undefined => madeIn.get(visitId),
    /** Newest first. */
    ofStation: (stationId: string): readonly VisitRow[] => ofStation.all(stationId),
    openOf: (stationId: string): VisitRow | undefined => open.get(stationId),
  };
}
