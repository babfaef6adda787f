import type { Database } from 'better-sqlite3';
import type { Session } from './session.ts';

export type TurnRow = Readonly<{
  turnId: string;
  visitId: string;
  sweepId: string;
  portName: string;
  trim: string;
  trimKind: 'gain' | 'slope';
  frequencyHz: number;
  byMdb: number;
  turnedAtMs: number;
}>;
export type NewTurn = Omit<TurnRow, 'visitId' | 'sweepId'> &
  Readonly<{ visit: number; sweep: number; stationId: string }>;

/** Statements on what was turned at a station's trims. The caller owns the transaction. */
export function turnStatements(archive: Database, session: Session) {
  const add = archive.prepare(`INSERT INTO trim_turn
    (turn_id, visit, sweep, station_id, port_name, trim, trim_kind, frequency_hz, by_mdb, turned_at, session, order_ms)
    VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`);
  const turns = archive.prepare<[string], TurnRow>(`
    SELECT t.turn_id turnId, v.visit_id visitId, s.sweep_id sweepId, t.port_name portName, t.trim,
      t.trim_kind trimKind, t.frequency_hz frequencyHz, t.by_mdb byMdb, t.turned_at turnedAtMs
    FROM trim_turn t JOIN visit v ON v.seq = t.visit JOIN sweep s ON s.seq = t.sweep
    WHERE t.station_id = ? ORDER BY t.order_ms DESC, t.turn_id DESC`);
  return {
    add: (turn: NewTurn): void => {
      const { lastInsertRowid } = add.run(
        turn.turnId,
        turn.visit,
        turn.sweep,
        turn.stationId,
        turn.portName,
        turn.trim,
        turn.trimKind,
        turn.frequencyHz,
        turn.byMdb,
        turn.turnedAtMs,
        session.number(),
        session.order(turn.turnedAtMs),
      );
      session.link('trim-turn', Number(lastInsertRowid));
    },
    /** Newest first. */
    ofStation: (stationId: string): readonly TurnRow[] => turns.all(stationId),
  };
}
