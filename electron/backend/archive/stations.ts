import type { Database } from 'better-sqlite3';
import type { Session } from './session.ts';

export type DesignRow = Readonly<{
  stationId: string;
  revision: number;
  name: string;
  /** The station file as ordered JSON. */
  design: string;
  addedAtMs: number;
}>;

export type ListedStation = Readonly<{
  stationId: string;
  name: string;
  revision: number;
  sweepCount: number;
  openVisit: 0 | 1;
  /** The newest ended sweep at a port that has a design line. */
  judgedSweepId: string | null;
}>;

const DESIGN = 'station_id stationId, revision, name, design, added_at addedAtMs';

/** Statements on stations and their design revisions. The caller owns the transaction. */
export function stationStatements(archive: Database, session: Session) {
  const has = archive.prepare('SELECT 1 FROM station WHERE station_id = ?').pluck();
  const add = archive.prepare('INSERT INTO station (station_id, added_at, session) VALUES (?, ?, ?)');
  const addRevision = archive.prepare(
    'INSERT INTO design_revision (station_id, revision, name, design, file_name, added_at, session) VALUES (?, ?, ?, ?, ?, ?, ?)',
  );
  const newest = archive.prepare<[string], DesignRow>(
    `SELECT ${DESIGN} FROM design_revision WHERE station_id = ? ORDER BY revision DESC LIMIT 1`,
  );
  const one = archive.prepare<[string, number], DesignRow>(
    `SELECT ${DESIGN} FROM design_revision WHERE station_id = ? AND revision = ?`,
  );
  const list = archive.prepare<[], ListedStation>(`
    SELECT s.station_id stationId, d.name, d.revision,
      (SELECT count(*) FROM sweep w WHERE w.station_id = s.station_id) sweepCount,
      coalesce((SELECT NOT EXISTS (SELECT 1 FROM visit_end e WHERE e.visit = v.seq)
                FROM visit v WHERE v.station_id = s.station_id ORDER BY v.seq DESC LIMIT 1), 0) openVisit,
      (SELECT w.sweep_id FROM sweep w
       WHERE w.station_id = s.station_id AND w.has_design = 1
         AND EXISTS (SELECT 1 FROM sweep_end e WHERE e.sweep = w.seq)
       ORDER BY w.seq DESC LIMIT 1) judgedSweepId
    FROM station s
    JOIN design_revision d ON d.station_id = s.station_id
     AND d.revision = (SELECT max(r.revision) FROM design_revision r WHERE r.station_id = s.station_id)
    ORDER BY s.seq`);
  return {
    has: (stationId: string): boolean => has.get(stationId) !== undefined,
    add: (stationId: string, addedAtMs: number): void => {
      add.run(stationId, addedAtMs, session.number());
    },
    addRevision: (row: DesignRow & Readonly<{ fileName: string }>): void => {
      addRevision.run(
        row.stationId,
        row.revision,
        row.name,
        row.design,
        row.fileName,
        row.addedAtMs,
        session.number(),
      );
    },
    newestDesign: (stationId: string): DesignRow | undefined => newest.get(stationId),
    design: (stationId: string, revision: number): DesignRow | undefined => one.get(stationId, revision),
    /** In the order in which they were added. */
    list: (): readonly ListedStation[] => list.all(),
  };
}
