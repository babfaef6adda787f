/** Every table here holds records. */
export const trimTurnTables = ['trim_turn'] as const;

/** What a hand turned at a station's trims, one row a trim, and the sweep that it was reckoned from. */
export const trimTurns = `
CREATE TABLE trim_turn (
  seq INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  turn_id TEXT NOT NULL UNIQUE CHECK (length(turn_id) = 36),
  visit INTEGER NOT NULL REFERENCES visit (seq),
  sweep INTEGER NOT NULL REFERENCES sweep (seq),
  station_id TEXT NOT NULL,
  port_name TEXT NOT NULL CHECK (length(port_name) >= 1),
  trim TEXT NOT NULL CHECK (length(trim) >= 1),
  trim_kind TEXT NOT NULL CHECK (trim_kind IN ('gain', 'slope')),
  -- Where it has its full effect and is read.
  frequency_hz INTEGER NOT NULL CHECK (frequency_hz >= 1),
  by_mdb INTEGER NOT NULL CHECK (by_mdb <> 0 AND by_mdb BETWEEN -1000000 AND 1000000),
  turned_at INTEGER NOT NULL CHECK (turned_at BETWEEN 0 AND 253402300799999),
  session INTEGER NOT NULL REFERENCES session (seq),
  order_ms INTEGER NOT NULL CHECK (order_ms >= 0)
) STRICT;
CREATE INDEX trim_turn_of_station ON trim_turn (station_id, order_ms);
CREATE TRIGGER trim_turn_is_never_changed BEFORE UPDATE ON trim_turn
BEGIN SELECT RAISE(ABORT, 'trim_turn is a record: it is never changed'); END;
CREATE TRIGGER trim_turn_is_never_deleted BEFORE DELETE ON trim_turn
BEGIN SELECT RAISE(ABORT, 'trim_turn is a record: it is never deleted'); END;
CREATE TRIGGER an_ended_visit_takes_no_turn BEFORE INSERT ON trim_turn
WHEN (SELECT x.device FROM session x WHERE x.seq = NEW.session) =
     (SELECT o.device FROM own_device o ORDER BY o.seq DESC LIMIT 1)
     AND EXISTS (SELECT 1 FROM visit_end e WHERE e.visit = NEW.visit)
BEGIN SELECT RAISE(ABORT, 'the visit has ended'); END;
`;
