import { randomUUID } from 'node:crypto';
import type { Database } from 'better-sqlite3';
import type { Session } from './session.ts';
import { JUDGED_OF } from './sweeps.ts';

export type DesignRow = Readonly<{
  stationId: string;
  revision: number;
  name: string;
  /** The station file as ordered JSON. */
  design: string;
  addedAtMs: number;
}>;

/** What lists show of a station, as it was last worked out. */
export type StationFace = Readonly<{
  seq: number;
  stationId: string;
  /** Null in both where it was never worked out, or something was recorded since. */
  face: string | null;
  judgedBy: string | null;
}>;

/** How a station goes over the years, as it was last worked out; null in both where it never was since the last record. */
export type StationTrendKept = Readonly<{ trend: string | null; trendJudgedBy: string | null }>;

export type StationFacts = Readonly<{
  stationId: string;
  name: string;
  revision: number;
  sweepCount: number;
  openVisit: 0 | 1;
  lastVisitMs: number | null;
  /** The newest sweep that can be judged. */
  judgedSweepId: string | null;
  /** Why; null while it is in service. */
  outOfService: string | null;
}>;

const DESIGN = 'station_id stationId, revision, name, design, added_at addedAtMs';

/**
 * Statements on stations and their design revisions. The caller owns the transaction.
 *
 * A parameter stands behind a plus wherever it is compared with an indexed column: SQLite looks at a bare one to choose its
 * plan, and therefore prepares the statement anew each time another value is bound, which takes five times as long as the
 * rest of it.
 */
export function stationStatements(archive: Database, session: Session) {
  const has = archive.prepare('SELECT 1 FROM station WHERE station_id = +?').pluck();
  const add = archive.prepare('INSERT INTO station (station_id, added_at, session) VALUES (?, ?, ?)');
  const addRevision = archive.prepare(
    'INSERT INTO design_revision (station_id, revision, name, design, file_name, added_at, session, order_ms, design_id) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)',
  );
  const newest = archive.prepare<[string], DesignRow>(
    `SELECT ${DESIGN} FROM design_revision WHERE station_id = +? ORDER BY order_ms DESC, design_id DESC LIMIT 1`,
  );
  const lastRevision = archive
    .prepare<[string], number>('SELECT coalesce(max(revision), 0) FROM design_revision WHERE station_id = +?')
    .pluck();
  const one = archive.prepare<[string, number], DesignRow>(
    `SELECT ${DESIGN} FROM design_revision WHERE station_id = +? AND revision = +?`,
  );
  const facts = archive.prepare<[string], StationFacts>(`
    SELECT a.value stationId, d.name, d.revision,
      (SELECT count(*) FROM sweep w WHERE w.station_id = a.value AND w.has_design IN (0, 1)) sweepCount,
      EXISTS (SELECT 1 FROM visit v
        WHERE v.station_id = a.value AND v.seq NOT IN (SELECT e.visit FROM visit_end e)
          AND (SELECT x.device FROM session x WHERE x.seq = v.session) =
            (SELECT o.device FROM own_device o ORDER BY o.seq DESC LIMIT 1)) openVisit,
      (SELECT v.started_at FROM visit v WHERE v.station_id = a.value
        ORDER BY v.order_ms DESC, v.started_at DESC LIMIT 1) lastVisitMs,
      (SELECT w.sweep_id FROM sweep w WHERE w.seq = ${JUDGED_OF('a.value')}) judgedSweepId,
      (SELECT json_extract(r.notes, '$.outOfService.reason') FROM notes_revision r WHERE r.station_id = a.value
        ORDER BY r.order_ms DESC, r.revision DESC LIMIT 1) outOfService
    FROM json_each(?) a CROSS JOIN design_revision d ON d.seq = (SELECT n.seq FROM design_revision n
      WHERE n.station_id = a.value ORDER BY n.order_ms DESC, n.design_id DESC LIMIT 1)`);
  const FACE = `SELECT s.seq, s.station_id stationId, f.face, f.judged_by judgedBy
    FROM station s LEFT JOIN station_face f ON f.station = s.seq`;
  const IN_ORDER =
    'ORDER BY (SELECT min(d.order_ms) FROM design_revision d WHERE d.station_id = s.station_id), s.station_id';
  const list = archive.prepare<[], StationFace>(`${FACE} ${IN_ORDER}`);
  const some = archive.prepare<[string], StationFace>(
    `${FACE} WHERE s.station_id IN (SELECT a.value FROM json_each(?) a) ${IN_ORDER}`,
  );
  const page = archive.prepare<[number, number], StationFace>(
    `${FACE} WHERE s.seq > ? ORDER BY s.seq LIMIT ?`,
  );
  const count = archive.prepare<[], number>('SELECT count(*) FROM station').pluck();
  const behind = archive.prepare<[number, string, string, number], StationFace>(
    `${FACE} WHERE s.seq > ? AND (f.judged_by IS NOT ? OR f.trend_judged_by IS NOT ?) ORDER BY s.seq LIMIT ?`,
  );
  const trend = archive.prepare<[string], StationTrendKept>(`
    SELECT f.trend, f.trend_judged_by trendJudgedBy
    FROM station s JOIN station_face f ON f.station = s.seq WHERE s.station_id = +?`);
  const keepTrend = archive.prepare(`
    UPDATE station_face SET trend = ?, trend_judged_by = ?
    WHERE station = (SELECT s.seq FROM station s WHERE s.station_id = +?)`);
  const recorded = archive
    .prepare<[], number>(
      'SELECT (SELECT coalesce(max(seq), 0) FROM link) + (SELECT coalesce(max(seq), 0) FROM sweep)',
    )
    .pluck();
  const keepFace = archive.prepare(
    `INSERT INTO station_face (station, face, judged_by) SELECT seq, ?, ? FROM station WHERE station_id = +?
     ON CONFLICT (station) DO UPDATE SET face = excluded.face, judged_by = excluded.judged_by`,
  );
  return {
    has: (stationId: string): boolean => has.get(stationId) !== undefined,
    add: (stationId: string, addedAtMs: number): void => {
      add.run(stationId, addedAtMs, session.number());
    },
    addRevision: (row: DesignRow & Readonly<{ fileName: string }>): void => {
      const { lastInsertRowid } = addRevision.run(
        row.stationId,
        row.revision,
        row.name,
        row.design,
        row.fileName,
        row.addedAtMs,
        session.number(),
        session.order(row.addedAtMs),
        randomUUID(),
      );
      session.link('design', Number(lastInsertRowid));
    },
    newestDesign: (stationId: string): DesignRow | undefined => newest.get(stationId),
    design: (stationId: string, revision: number): DesignRow | undefined => one.get(stationId, revision),
    /** The highest number that a revision of the station has here; 0 without one. */
    lastRevision: (stationId: string): number => lastRevision.get(stationId) ?? 0,
    /** All, or those of them, in the order of their first designs, on whatever laptop that was. */
    list: (of?: readonly string[]): readonly StationFace[] =>
      of === undefined ? list.all() : some.all(JSON.stringify(of)),
    /** In the order in which they were added here; `after` is the `seq` of the last one known. */
    page: (after: number, limit: number): readonly StationFace[] => page.all(after, limit),
    /** Those of which something would have to be worked out anew, in the same order. */
    behind: (judgedBy: string, after: number, limit: number): readonly StationFace[] =>
      behind.all(after, judgedBy, judgedBy, limit),
    count: (): number => count.get() ?? 0,
    /** Of those stations that have a design, in the order asked; of many at once it takes a fifth of the time. */
    factsOf: (stationIds: readonly string[]): readonly StationFacts[] =>
      facts.all(JSON.stringify(stationIds)),
    /** Grows with each record and each sweep that is begun: another number, and what was worked out may be old. */
    recorded: (): number => recorded.get() ?? 0,
    trend: (stationId: string): StationTrendKept | undefined => trend.get(stationId),
    /** Keeps how a station goes, beside its face and as long as that; it is no record. */
    keepTrend: (stationId: string, kept: string, judgedBy: string): void => {
      keepTrend.run(kept, judgedBy, stationId);
    },
    /** Keeps what was worked out for the lists; it is no record. */
    keepFace: (stationId: string, face: string, judgedBy: string): void => {
      keepFace.run(face, judgedBy, stationId);
    },
  };
}
