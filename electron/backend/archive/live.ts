import type { Database } from 'better-sqlite3';
import type { Session } from './session.ts';

export type LiveRow = Readonly<{
  seq: number;
  liveId: string;
  stationId: string;
  visitId: string | null;
  portName: string;
  frequencyHz: number;
  testPointLossMdb: number;
  startedAtMs: number;
  /** Null while it has no end; the reason is null then, and when it was stopped by hand. */
  endedAtMs: number | null;
  reason: string | null;
  readingCount: number;
}>;
export type NewLive = Omit<LiveRow, 'seq' | 'visitId' | 'endedAtMs' | 'reason' | 'readingCount'> &
  Readonly<{
    visit: number | null;
    revision: number;
    profile: string;
    meter: string;
    ambientMc: number | null;
    pluggedIn: string;
  }>;

export type LiveReadingRow = Readonly<{
  place: number;
  elapsedMs: number;
  meterMdbmv: number | null;
  takenAtMs: number;
}>;

export type UnfinishedLive = Readonly<{ seq: number; readingCount: number; lastKnownAtMs: number }>;

export type HandRow = Readonly<{ hand: string; ambientMc: number | null; doneAtMs: number }>;

const COUNT = '(SELECT count(*) FROM live_reading r WHERE r.live = l.seq)';
const LIVE = `SELECT l.seq, l.live_id liveId, l.station_id stationId, v.visit_id visitId, l.port_name portName,
  l.frequency_hz frequencyHz, l.test_point_loss_mdb testPointLossMdb, l.started_at startedAtMs,
  e.ended_at endedAtMs, e.reason, coalesce(e.reading_count, ${COUNT}) readingCount
  FROM live l LEFT JOIN visit v ON v.seq = l.visit LEFT JOIN live_end e ON e.live = l.seq`;

/** Statements on levels watched live, and on hands at the simulated stations. The caller owns the transaction. */
export function liveStatements(archive: Database, session: Session) {
  const add = archive.prepare(`INSERT INTO live
    (live_id, station_id, revision, visit, port_name, frequency_hz, test_point_loss_mdb, profile, meter, ambient_mc,
     plugged_in, started_at, session, order_ms) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`);
  const addReading = archive.prepare(
    'INSERT INTO live_reading (live, place, elapsed_ms, meter_mdbmv, taken_at) VALUES (?, ?, ?, ?, ?)',
  );
  const end = archive.prepare(
    'INSERT INTO live_end (live, reason, recovered, reading_count, ended_at, session) VALUES (?, ?, ?, ?, ?, ?)',
  );
  const byId = archive.prepare<[string], LiveRow>(`${LIVE} WHERE l.live_id = ?`);
  const readings = archive.prepare<[number, number, number], LiveReadingRow>(
    `SELECT place, elapsed_ms elapsedMs, meter_mdbmv meterMdbmv, taken_at takenAtMs
     FROM live_reading WHERE live = ? AND place >= ? ORDER BY place LIMIT ?`,
  );
  const unfinished = archive.prepare<[], UnfinishedLive>(`
    SELECT l.seq, ${COUNT} readingCount,
      coalesce((SELECT r.taken_at FROM live_reading r WHERE r.live = l.seq ORDER BY r.place DESC LIMIT 1),
               l.started_at) lastKnownAtMs
    FROM live l WHERE NOT EXISTS (SELECT 1 FROM live_end e WHERE e.live = l.seq) ORDER BY l.seq`);
  const addHand = archive.prepare(
    'INSERT INTO simulated_hand (station_id, hand, ambient_mc, done_at, session, order_ms) VALUES (?, ?, ?, ?, ?, ?)',
  );
  const hands = archive.prepare<[string], HandRow>(
    `SELECT h.hand, h.ambient_mc ambientMc, h.done_at doneAtMs FROM simulated_hand h JOIN session x ON x.seq = h.session
     WHERE h.station_id = ? AND x.device = (SELECT o.device FROM own_device o ORDER BY o.seq DESC LIMIT 1)
     ORDER BY h.seq`,
  );
  return {
    /** @returns  the run's `seq`, under which its readings are added */
    add: (live: NewLive): number =>
      Number(
        add.run(
          live.liveId,
          live.stationId,
          live.revision,
          live.visit,
          live.portName,
          live.frequencyHz,
          live.testPointLossMdb,
          live.profile,
          live.meter,
          live.ambientMc,
          live.pluggedIn,
          live.startedAtMs,
          session.number(),
          session.order(live.startedAtMs),
        ).lastInsertRowid,
      ),
    addReading: (seq: number, { place, elapsedMs, meterMdbmv, takenAtMs }: LiveReadingRow): void => {
      addReading.run(seq, place, elapsedMs, meterMdbmv, takenAtMs);
    },
    end: (
      seq: number,
      ended: Readonly<{ reason: string | null; recovered: boolean; readingCount: number; endedAtMs: number }>,
    ): void => {
      end.run(
        seq,
        ended.reason,
        ended.recovered ? 1 : 0,
        ended.readingCount,
        ended.endedAtMs,
        session.number(),
      );
      session.link('live', seq);
    },
    byId: (liveId: string): LiveRow | undefined => byId.get(liveId),
    readings: (seq: number, fromPlace: number, limit: number): readonly LiveReadingRow[] =>
      readings.all(seq, fromPlace, limit),
    unfinished: (): readonly UnfinishedLive[] => unfinished.all(),
    addHand: (stationId: string, { hand, ambientMc, doneAtMs }: HandRow): void => {
      const { lastInsertRowid } = addHand.run(
        stationId,
        hand,
        ambientMc,
        doneAtMs,
        session.number(),
        session.order(doneAtMs),
      );
      session.link('simulated-hand', Number(lastInsertRowid));
    },
    /** Of this device's simulated network, in the order in which they were done. */
    handsAt: (stationId: string): readonly HandRow[] => hands.all(stationId),
  };
}
