import type { Database } from 'better-sqlite3';
import type { Purpose, Reading } from '../../../core/bridge/records.ts';
import type { Session } from './session.ts';

export type SweepRow = Readonly<{
  seq: number;
  sweepId: string;
  visitId: string;
  stationId: string;
  revision: number;
  portName: string;
  purpose: Purpose;
  source: 'meter' | 'file';
  sourceName: string;
  /** The meter's identity as JSON. */
  meter: string | null;
  testPointLossMdb: number;
  ambientMc: number | null;
  plannedCount: number;
  /** Position to value, as JSON. */
  pluggedIn: string;
  startedAtMs: number;
  /** Null in all four while the sweep has no end. */
  state: 'complete' | 'partial' | null;
  reason: string | null;
  endedAtMs: number | null;
  readingCount: number;
}>;
export type NewSweep = Omit<SweepRow, 'seq' | 'visitId' | 'state' | 'reason' | 'endedAtMs' | 'readingCount'> &
  Readonly<{ visit: number; hasDesign: boolean }>;

export type ReadingRow = Readonly<{
  frequencyHz: number;
  meterMdbmv: number | null;
  kind: Reading['kind'];
  takenAtMs: number;
}>;

export type SweepEnd = Readonly<{
  state: 'complete' | 'partial';
  reason: string | null;
  recovered: boolean;
  readingCount: number;
  endedAtMs: number;
}>;

export type UnfinishedSweep = Readonly<{
  seq: number;
  sweepId: string;
  stationId: string;
  readingCount: number;
  /** When the newest reading was taken, or the sweep begun. */
  lastKnownAtMs: number;
}>;

const SWEEP = `SELECT s.seq, s.sweep_id sweepId, v.visit_id visitId, s.station_id stationId, s.revision,
  s.port_name portName, s.purpose, s.source, s.source_name sourceName, s.meter,
  s.test_point_loss_mdb testPointLossMdb, s.ambient_mc ambientMc, s.planned_count plannedCount,
  s.plugged_in pluggedIn, s.started_at startedAtMs, e.state, e.reason, e.ended_at endedAtMs,
  coalesce(e.reading_count, (SELECT count(*) FROM reading r WHERE r.sweep = s.seq)) readingCount
  FROM sweep s JOIN visit v ON v.seq = s.visit LEFT JOIN sweep_end e ON e.sweep = s.seq`;

/** Statements on sweeps, their readings and their ends. The caller owns the transaction. */
export function sweepStatements(archive: Database, session: Session) {
  const add = archive.prepare(`INSERT INTO sweep
    (sweep_id, visit, station_id, revision, port_name, has_design, purpose, source, source_name, meter,
     test_point_loss_mdb, ambient_mc, planned_count, plugged_in, started_at, session)
    VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`);
  const addReading = archive.prepare(
    'INSERT INTO reading (sweep, place, frequency_hz, meter_mdbmv, kind, taken_at) VALUES (?, ?, ?, ?, ?, ?)',
  );
  const addFile = archive.prepare('INSERT INTO sweep_file (sweep, body) VALUES (?, ?)');
  const end = archive.prepare(
    'INSERT INTO sweep_end (sweep, state, reason, recovered, reading_count, ended_at, session) VALUES (?, ?, ?, ?, ?, ?, ?)',
  );
  const byId = archive.prepare<[string], SweepRow>(`${SWEEP} WHERE s.sweep_id = ?`);
  // The index leads with the station and whether there is a design line; both halves, then the newest first.
  const ofStation = archive.prepare<[string], SweepRow>(
    `${SWEEP} WHERE s.station_id = ? AND s.has_design IN (0, 1) ORDER BY s.seq DESC`,
  );
  const readings = archive.prepare<[number], ReadingRow>(
    `SELECT frequency_hz frequencyHz, meter_mdbmv meterMdbmv, kind, taken_at takenAtMs
     FROM reading WHERE sweep = ? ORDER BY place`,
  );
  const fileOf = archive.prepare<[number], string>('SELECT body FROM sweep_file WHERE sweep = ?').pluck();
  const unfinished = archive.prepare<[], UnfinishedSweep>(`
    SELECT s.seq, s.sweep_id sweepId, s.station_id stationId,
      (SELECT count(*) FROM reading r WHERE r.sweep = s.seq) readingCount,
      coalesce((SELECT r.taken_at FROM reading r WHERE r.sweep = s.seq ORDER BY r.place DESC LIMIT 1),
               s.started_at) lastKnownAtMs
    FROM sweep s WHERE NOT EXISTS (SELECT 1 FROM sweep_end e WHERE e.sweep = s.seq) ORDER BY s.seq`);
  return {
    /** @returns  the sweep's `seq`, under which its readings are added */
    add: (sweep: NewSweep): number =>
      Number(
        add.run(
          sweep.sweepId,
          sweep.visit,
          sweep.stationId,
          sweep.revision,
          sweep.portName,
          sweep.hasDesign ? 1 : 0,
          sweep.purpose,
          sweep.source,
          sweep.sourceName,
          sweep.meter,
          sweep.testPointLossMdb,
          sweep.ambientMc,
          sweep.plannedCount,
          sweep.pluggedIn,
          sweep.startedAtMs,
          session.number(),
        ).lastInsertRowid,
      ),
    addReading: (seq: number, place: number, reading: ReadingRow): void => {
      addReading.run(seq, place, reading.frequencyHz, reading.meterMdbmv, reading.kind, reading.takenAtMs);
    },
    addFile: (seq: number, body: string): void => {
      addFile.run(seq, body);
    },
    end: (seq: number, ended: SweepEnd): void => {
      end.run(
        seq,
        ended.state,
        ended.reason,
        ended.recovered ? 1 : 0,
        ended.readingCount,
        ended.endedAtMs,
        session.number(),
      );
    },
    byId: (sweepId: string): SweepRow | undefined => byId.get(sweepId),
    /** Newest first. */
    ofStation: (stationId: string): readonly SweepRow[] => ofStation.all(stationId),
    /** In the order in which they were taken. */
    readings: (seq: number): readonly ReadingRow[] => readings.all(seq),
    /** The text of the file that a sweep was taken from. */
    fileOf: (seq: number): string | undefined => fileOf.get(seq) as string | undefined,
    unfinished: (): readonly UnfinishedSweep[] => unfinished.all(),
  };
}
