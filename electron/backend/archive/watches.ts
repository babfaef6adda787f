import type { Database } from 'better-sqlite3';
import type { Session } from './session.ts';

export type WatchEndState = 'complete' | 'stopped' | 'cut-short';

export type WatchRow = Readonly<{
  seq: number;
  watchId: string;
  stationId: string;
  revision: number;
  visitId: string | null;
  portName: string;
  testPointLossMdb: number;
  /** In Hz, as JSON. */
  frequencies: string;
  pilotHz: number | null;
  everyMs: number;
  forMs: number | null;
  startedAtMs: number;
  /** Null in all three while it has no end. */
  state: WatchEndState | null;
  reason: string | null;
  endedAtMs: number | null;
  /** The number that the next round has. */
  nextRound: number;
  missedCount: number;
}>;
export type NewWatch = Omit<
  WatchRow,
  'seq' | 'visitId' | 'state' | 'reason' | 'endedAtMs' | 'nextRound' | 'missedCount'
> &
  Readonly<{ visit: number | null }>;

export type WatchMeterRow = Readonly<{
  fromRound: number;
  /** Both as JSON. */
  choice: string;
  meter: string;
  profile: string;
  connectedAtMs: number;
}>;
export type WatchRoundRow = Readonly<{
  round: number;
  rounds: number;
  gap: string | null;
  takenAtMs: number;
}>;
export type WatchLevelRow = Readonly<{ round: number; place: number; meterMdbmv: number | null }>;
export type WatchTemperatureRow = Readonly<{ ambientMc: number; notedAtMs: number }>;

const WATCH = `SELECT w.seq, w.watch_id watchId, w.station_id stationId, w.revision, v.visit_id visitId,
  w.port_name portName, w.test_point_loss_mdb testPointLossMdb, w.frequencies, w.pilot_hz pilotHz,
  w.every_ms everyMs, w.for_ms forMs, w.started_at startedAtMs, e.state, e.reason, e.ended_at endedAtMs,
  coalesce((SELECT r.round + r.rounds FROM watch_round r WHERE r.watch = w.seq ORDER BY r.round DESC LIMIT 1), 0) nextRound,
  coalesce((SELECT sum(r.rounds) FROM watch_round r WHERE r.watch = w.seq AND r.gap IS NOT NULL), 0) missedCount
  FROM watch w LEFT JOIN visit v ON v.seq = w.visit LEFT JOIN watch_end e ON e.watch = w.seq`;

/** Statements on unattended watches. The caller owns the transaction. */
export function watchStatements(archive: Database, session: Session) {
  const add = archive.prepare(`INSERT INTO watch
    (watch_id, station_id, revision, visit, port_name, test_point_loss_mdb, frequencies, pilot_hz, every_ms, for_ms,
     started_at, session, order_ms) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`);
  const addMeter = archive.prepare(`INSERT INTO watch_meter
    (watch, from_round, choice, meter, profile, connected_at, session) VALUES (?, ?, ?, ?, ?, ?, ?)`);
  const addRound = archive.prepare(
    'INSERT INTO watch_round (watch, round, rounds, gap, taken_at, session) VALUES (?, ?, ?, ?, ?, ?)',
  );
  const addLevel = archive.prepare(
    'INSERT INTO watch_level (watch, round, place, meter_mdbmv) VALUES (?, ?, ?, ?)',
  );
  const addTemperature = archive.prepare(
    'INSERT INTO watch_temperature (watch, ambient_mc, noted_at, session) VALUES (?, ?, ?, ?)',
  );
  const end = archive.prepare(
    'INSERT INTO watch_end (watch, state, reason, ended_at, session) VALUES (?, ?, ?, ?, ?)',
  );
  const byId = archive.prepare<[string], WatchRow>(`${WATCH} WHERE w.watch_id = ?`);
  const running = archive.prepare<[], WatchRow>(`${WATCH} WHERE e.watch IS NULL ORDER BY w.seq DESC LIMIT 1`);
  const ofStation = archive.prepare<[string], WatchRow>(
    `${WATCH} WHERE w.station_id = ? ORDER BY w.order_ms DESC, w.watch_id DESC`,
  );
  const rounds = archive.prepare<[number], WatchRoundRow>(
    'SELECT round, rounds, gap, taken_at takenAtMs FROM watch_round WHERE watch = ? ORDER BY round',
  );
  const levels = archive.prepare<[number], WatchLevelRow>(
    'SELECT round, place, meter_mdbmv meterMdbmv FROM watch_level WHERE watch = ? ORDER BY round, place',
  );
  const temperatures = archive.prepare<[number], WatchTemperatureRow>(
    'SELECT ambient_mc ambientMc, noted_at notedAtMs FROM watch_temperature WHERE watch = ? ORDER BY seq',
  );
  const meter = archive.prepare<[number], WatchMeterRow>(
    `SELECT from_round fromRound, choice, meter, profile, connected_at connectedAtMs
     FROM watch_meter WHERE watch = ? ORDER BY seq DESC LIMIT 1`,
  );
  return {
    /** @returns  the watch's `seq`, under which its rounds are added */
    add: (watch: NewWatch): number =>
      Number(
        add.run(
          watch.watchId,
          watch.stationId,
          watch.revision,
          watch.visit,
          watch.portName,
          watch.testPointLossMdb,
          watch.frequencies,
          watch.pilotHz,
          watch.everyMs,
          watch.forMs,
          watch.startedAtMs,
          session.number(),
          session.order(watch.startedAtMs),
        ).lastInsertRowid,
      ),
    addMeter: (seq: number, row: WatchMeterRow): void => {
      addMeter.run(
        seq,
        row.fromRound,
        row.choice,
        row.meter,
        row.profile,
        row.connectedAtMs,
        session.number(),
      );
    },
    addRound: (
      seq: number,
      { round, rounds: count, gap, takenAtMs }: WatchRoundRow,
      meterMdbmv: readonly (number | null)[],
    ): void => {
      addRound.run(seq, round, count, gap, takenAtMs, session.number());
      meterMdbmv.forEach((level, place) => {
        addLevel.run(seq, round, place, level);
      });
    },
    addTemperature: (seq: number, { ambientMc, notedAtMs }: WatchTemperatureRow): void => {
      addTemperature.run(seq, ambientMc, notedAtMs, session.number());
    },
    end: (seq: number, state: WatchEndState, reason: string | null, endedAtMs: number): void => {
      end.run(seq, state, reason, endedAtMs, session.number());
      session.link('watch', seq);
    },
    byId: (watchId: string): WatchRow | undefined => byId.get(watchId),
    /** The one without an end. */
    running: (): WatchRow | undefined => running.get(),
    /** Newest first. */
    ofStation: (stationId: string): readonly WatchRow[] => ofStation.all(stationId),
    rounds: (seq: number): readonly WatchRoundRow[] => rounds.all(seq),
    levels: (seq: number): readonly WatchLevelRow[] => levels.all(seq),
    temperatures: (seq: number): readonly WatchTemperatureRow[] => temperatures.all(seq),
    /** The newest. */
    meter: (seq: number): WatchMeterRow | undefined => meter.get(seq),
  };
}
