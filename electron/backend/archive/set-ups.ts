import type { Database } from 'better-sqlite3';
import type { Session } from './session.ts';

export type SetUpRow = Readonly<{
  seq: number;
  setUpId: string;
  visitId: string;
  stationId: string;
  revision: number;
  /** As JSON. */
  plan: string;
  startedAtMs: number;
  abandoned: string | null;
}>;
export type NewSetUp = Omit<SetUpRow, 'seq' | 'visitId' | 'abandoned'> & Readonly<{ visit: number }>;

export type SetUpEventRow = Readonly<{
  place: number;
  step: string;
  outcome: 'done' | 'skipped' | 'redo';
  by: 'reading' | 'hand';
  reason: string | null;
  /** As JSON. */
  entered: string;
  liveId: string | null;
  happenedAtMs: number;
}>;
export type NewSetUpEvent = Omit<SetUpEventRow, 'liveId'> & Readonly<{ live: number | null }>;

const SET_UP = `SELECT s.seq, s.set_up_id setUpId, v.visit_id visitId, s.station_id stationId, s.revision, s.plan,
  s.started_at startedAtMs, a.reason abandoned
  FROM set_up s JOIN visit v ON v.seq = s.visit LEFT JOIN set_up_abandoned a ON a.set_up = s.seq`;

/** Statements on guided set-ups and what happened in them. The caller owns the transaction. */
export function setUpStatements(archive: Database, session: Session) {
  const add = archive.prepare(
    'INSERT INTO set_up (set_up_id, visit, station_id, revision, plan, started_at, session, order_ms) VALUES (?, ?, ?, ?, ?, ?, ?, ?)',
  );
  const addEvent = archive.prepare(`INSERT INTO set_up_event
    (set_up, place, step, outcome, by, reason, entered, live, happened_at, session)
    VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`);
  const abandon = archive.prepare(
    'INSERT INTO set_up_abandoned (set_up, reason, abandoned_at, session) VALUES (?, ?, ?, ?)',
  );
  const openIn = archive.prepare<[string], SetUpRow>(
    `${SET_UP} WHERE v.visit_id = ? AND a.set_up IS NULL ORDER BY s.order_ms DESC, s.set_up_id DESC LIMIT 1`,
  );
  const byId = archive.prepare<[string], SetUpRow>(`${SET_UP} WHERE s.set_up_id = ?`);
  const ofStation = archive.prepare<[string], SetUpRow>(
    `${SET_UP} WHERE s.station_id = ? ORDER BY s.order_ms DESC, s.set_up_id DESC`,
  );
  const events = archive.prepare<[number], SetUpEventRow>(`
    SELECT e.place, e.step, e.outcome, e.by, e.reason, e.entered, l.live_id liveId, e.happened_at happenedAtMs
    FROM set_up_event e LEFT JOIN live l ON l.seq = e.live WHERE e.set_up = ? ORDER BY e.place`);
  return {
    add: (setUp: NewSetUp): void => {
      const { lastInsertRowid } = add.run(
        setUp.setUpId,
        setUp.visit,
        setUp.stationId,
        setUp.revision,
        setUp.plan,
        setUp.startedAtMs,
        session.number(),
        session.order(setUp.startedAtMs),
      );
      session.link('set-up', Number(lastInsertRowid));
    },
    addEvent: (seq: number, event: NewSetUpEvent): void => {
      addEvent.run(
        seq,
        event.place,
        event.step,
        event.outcome,
        event.by,
        event.reason,
        event.entered,
        event.live,
        event.happenedAtMs,
        session.number(),
      );
      session.link('set-up-event', seq, event.place);
    },
    abandon: (seq: number, reason: string, abandonedAtMs: number): void => {
      abandon.run(seq, reason, abandonedAtMs, session.number());
      session.link('set-up-abandoned', seq);
    },
    /** The one of a visit that was not given up. */
    openIn: (visitId: string): SetUpRow | undefined => openIn.get(visitId),
    byId: (setUpId: string): SetUpRow | undefined => byId.get(setUpId),
    /** Newest first. */
    ofStation: (stationId: string): readonly SetUpRow[] => ofStation.all(stationId),
    /** In the order in which they happened. */
    events: (seq: number): readonly SetUpEventRow[] => events.all(seq),
  };
}
