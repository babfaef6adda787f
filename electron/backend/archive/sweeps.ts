import type { Database } from 'better-sqlite3';
import type { Purpose } from '../../../core/bridge/records.ts';
import { type KeptReading, packReadings } from '../../../core/records/pack-readings.ts';
import type { Documents } from './documents.ts';
import type { Session } from './session.ts';
import { sweepFileStatements } from './sweep-files.ts';

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
  /** Null in all three unless it was declared void. */
  voidReason: string | null;
  voidOperator: string | null;
  voidedAtMs: number | null;
  /** The sweep that this one says right, and why; null in all four for a sweep as it was read. */
  corrects: string | null;
  correctionReason: string | null;
  correctionOperator: string | null;
  correctedAtMs: number | null;
  /** The sweep that says this one right; a void one doesn't. */
  correctedBy: string | null;
}>;
export type NewSweep = Pick<
  SweepRow,
  | 'sweepId'
  | 'stationId'
  | 'revision'
  | 'portName'
  | 'purpose'
  | 'source'
  | 'sourceName'
  | 'meter'
  | 'testPointLossMdb'
  | 'ambientMc'
  | 'plannedCount'
  | 'pluggedIn'
  | 'startedAtMs'
> &
  Readonly<{ visit: number; hasDesign: boolean }>;

export type ReadingRow = KeptReading;

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

/** What a correction says otherwise than the sweep that it names. */
export type Correction = Readonly<{
  sweepId: string;
  reason: string;
  operator: string;
  correctedAtMs: number;
  testPointLossMdb: number;
  portName: string;
  hasDesign: boolean;
  purpose: Purpose;
  ambientMc: number | null;
}>;

const VOID_OF = (sweep: string) =>
  `(SELECT w.seq FROM sweep_void w WHERE w.sweep = ${sweep} ORDER BY w.order_ms, w.void_id LIMIT 1)`;
const CORRECTED_BY = (
  sweep: string,
) => `(SELECT n.sweep_id FROM sweep n JOIN sweep_correction m ON m.sweep = n.seq
  WHERE n.corrects = ${sweep} AND NOT EXISTS (SELECT 1 FROM sweep_void w WHERE w.sweep = n.seq)
  ORDER BY m.corrected_at DESC, n.sweep_id DESC LIMIT 1)`;
/** The newest of a station that can be judged: ended at a port with a design line, neither void nor corrected. */
export const JUDGED_OF = (stationId: string) => `(SELECT j.seq FROM sweep j
  WHERE j.station_id = ${stationId} AND j.has_design = 1
    AND EXISTS (SELECT 1 FROM sweep_end e WHERE e.sweep = j.seq)
    AND NOT EXISTS (SELECT 1 FROM sweep_void w WHERE w.sweep = j.seq)
    AND ${CORRECTED_BY('j.seq')} IS NULL
  ORDER BY j.order_ms DESC, j.sweep_id DESC LIMIT 1)`;

const SWEEP = `SELECT s.seq, s.sweep_id sweepId, v.visit_id visitId, s.station_id stationId, s.revision,
  s.port_name portName, s.purpose, s.source, s.source_name sourceName,
  (SELECT t.body FROM shared_text t WHERE t.seq = s.meter) meter,
  s.test_point_loss_mdb testPointLossMdb, s.ambient_mc ambientMc, s.planned_count plannedCount,
  (SELECT t.body FROM shared_text t WHERE t.seq = s.plugged_in) pluggedIn,
  s.started_at startedAtMs, e.state, e.reason, e.ended_at endedAtMs,
  coalesce(e.reading_count, (SELECT count(*) FROM reading r WHERE r.sweep = s.seq)) readingCount,
  d.reason voidReason, d.operator voidOperator, d.voided_at voidedAtMs,
  (SELECT o.sweep_id FROM sweep o WHERE o.seq = s.corrects) corrects,
  c.reason correctionReason, c.operator correctionOperator, c.corrected_at correctedAtMs,
  ${CORRECTED_BY('s.seq')} correctedBy
  FROM sweep s JOIN visit v ON v.seq = s.visit LEFT JOIN sweep_end e ON e.sweep = s.seq
  LEFT JOIN sweep_void d ON d.seq = ${VOID_OF('s.seq')} LEFT JOIN sweep_correction c ON c.sweep = s.seq`;

/** Statements on sweeps, their readings and their ends. The caller owns the transaction. */
export function sweepStatements(archive: Database, session: Session, documents: Documents) {
  const sharedText = archive.prepare<[string], number>('SELECT seq FROM shared_text WHERE body = +?').pluck();
  const addSharedText = archive.prepare('INSERT INTO shared_text (body) VALUES (?)');
  const frequencyList = archive
    .prepare<[Uint8Array], number>('SELECT seq FROM frequency_list WHERE body = +?')
    .pluck();
  const addFrequencyList = archive.prepare('INSERT INTO frequency_list (body) VALUES (?)');
  const once = (found: unknown, add: () => { lastInsertRowid: number | bigint }): number =>
    typeof found === 'number' ? found : Number(add().lastInsertRowid);
  const textSeq = (text: string): number => once(sharedText.get(text), () => addSharedText.run(text));
  const add = archive.prepare(`INSERT INTO sweep
    (sweep_id, visit, station_id, revision, port_name, has_design, purpose, source, source_name, meter,
     test_point_loss_mdb, ambient_mc, planned_count, plugged_in, started_at, session, order_ms)
    VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`);
  const addReading = archive.prepare(
    'INSERT INTO reading (sweep, place, frequency_hz, meter_mdbmv, kind, taken_at) VALUES (?, ?, ?, ?, ?, ?)',
  );
  const addLevels = archive.prepare(
    'INSERT INTO sweep_levels (sweep, frequency_list, reading_count, body) VALUES (?, ?, ?, ?)',
  );
  const clearJournal = archive.prepare('DELETE FROM reading WHERE sweep = ?');
  const end = archive.prepare(
    'INSERT INTO sweep_end (sweep, state, reason, recovered, reading_count, ended_at, session) VALUES (?, ?, ?, ?, ?, ?, ?)',
  );
  const byId = archive.prepare<[string], SweepRow>(`${SWEEP} WHERE s.sweep_id = +?`);
  // The index leads with the station and whether there is a design line; both halves, then the newest first.
  const ofStation = archive.prepare<[string], SweepRow>(
    `${SWEEP} WHERE s.station_id = +? AND s.has_design IN (0, 1)
     ORDER BY s.order_ms DESC, coalesce(c.corrected_at, 0) DESC, s.sweep_id DESC`,
  );
  const newestOfEach = archive.prepare<[], SweepRow>(
    `${SWEEP} JOIN station a ON s.seq = ${JUDGED_OF('a.station_id')} ORDER BY a.seq`,
  );
  const journal = archive.prepare<[number], ReadingRow>(
    `SELECT frequency_hz frequencyHz, meter_mdbmv meterMdbmv, kind, taken_at takenAtMs
     FROM reading WHERE sweep = ? ORDER BY place`,
  );
  const unfinished = archive.prepare<[], UnfinishedSweep>(`
    SELECT s.seq, s.sweep_id sweepId, s.station_id stationId,
      (SELECT count(*) FROM reading r WHERE r.sweep = s.seq) readingCount,
      coalesce((SELECT r.taken_at FROM reading r WHERE r.sweep = s.seq ORDER BY r.place DESC LIMIT 1),
               s.started_at) lastKnownAtMs
    FROM sweep s WHERE NOT EXISTS (SELECT 1 FROM sweep_end e WHERE e.sweep = s.seq) ORDER BY s.seq`);
  const addVoid = archive.prepare(
    'INSERT INTO sweep_void (void_id, sweep, reason, operator, voided_at, session, order_ms) VALUES (?, ?, ?, ?, ?, ?, ?)',
  );
  const copy = archive.prepare(`INSERT INTO sweep
    (sweep_id, visit, station_id, revision, port_name, has_design, purpose, source, source_name, meter,
     test_point_loss_mdb, ambient_mc, planned_count, plugged_in, started_at, session, order_ms, corrects)
    SELECT ?, visit, station_id, revision, ?, ?, ?, source, source_name, meter,
      ?, ?, planned_count, plugged_in, started_at, ?, order_ms, seq FROM sweep WHERE seq = ?`);
  const copyLevels = archive.prepare(
    'INSERT INTO sweep_levels SELECT ?, frequency_list, reading_count, body FROM sweep_levels WHERE sweep = ?',
  );
  const copyEnd = archive.prepare(
    'INSERT INTO sweep_end SELECT ?, state, reason, recovered, reading_count, ended_at, ? FROM sweep_end WHERE sweep = ?',
  );
  const addCorrection = archive.prepare(
    'INSERT INTO sweep_correction (sweep, reason, operator, corrected_at) VALUES (?, ?, ?, ?)',
  );
  return {
    ...sweepFileStatements(archive),
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
          sweep.meter === null ? null : textSeq(sweep.meter),
          sweep.testPointLossMdb,
          sweep.ambientMc,
          sweep.plannedCount,
          textSeq(sweep.pluggedIn),
          sweep.startedAtMs,
          session.number(),
          session.order(sweep.startedAtMs),
        ).lastInsertRowid,
      ),
    addReading: (seq: number, place: number, reading: ReadingRow): void => {
      addReading.run(seq, place, reading.frequencyHz, reading.meterMdbmv, reading.kind, reading.takenAtMs);
    },
    /** Packs what was read, puts the packed form in the place of the journal, and links the sweep as a record. */
    end: (seq: number, ended: SweepEnd): void => {
      const readings = journal.all(seq);
      const { frequencies, body } = packReadings(readings);
      const list = once(frequencyList.get(frequencies), () => addFrequencyList.run(frequencies));
      addLevels.run(seq, list, readings.length, body);
      clearJournal.run(seq);
      end.run(
        seq,
        ended.state,
        ended.reason,
        ended.recovered ? 1 : 0,
        ended.readingCount,
        ended.endedAtMs,
        session.number(),
      );
      session.link('sweep', seq);
    },
    declareVoid: (
      seq: number,
      {
        voidId,
        reason,
        operator,
        voidedAtMs,
      }: Readonly<Record<'voidId' | 'reason' | 'operator', string>> & Readonly<{ voidedAtMs: number }>,
    ): void => {
      const order = session.order(voidedAtMs);
      const { lastInsertRowid } = addVoid.run(
        voidId,
        seq,
        reason,
        operator,
        voidedAtMs,
        session.number(),
        order,
      );
      session.link('void', Number(lastInsertRowid));
    },
    /** A new sweep with the readings of this one, in its place of the order. */
    correct: (seq: number, to: Correction): void => {
      const made = Number(
        copy.run(
          to.sweepId,
          to.portName,
          to.hasDesign ? 1 : 0,
          to.purpose,
          to.testPointLossMdb,
          to.ambientMc,
          session.number(),
          seq,
        ).lastInsertRowid,
      );
      addCorrection.run(made, to.reason, to.operator, to.correctedAtMs);
      copyLevels.run(made, seq);
      copyEnd.run(made, session.number(), seq);
      session.link('sweep', made);
    },
    byId: (sweepId: string): SweepRow | undefined => byId.get(sweepId),
    /** Newest first; a correction stands beside the sweep that it names. */
    ofStation: (stationId: string): readonly SweepRow[] => ofStation.all(stationId),
    /** Of each station the newest sweep that can be judged; stations without one are left out. */
    newestOfEach: (): readonly SweepRow[] => newestOfEach.all(),
    /** In the order in which they were taken. */
    readings: (seq: number): readonly ReadingRow[] => documents.readings(seq) ?? journal.all(seq),
    unfinished: (): readonly UnfinishedSweep[] => unfinished.all(),
  };
}
