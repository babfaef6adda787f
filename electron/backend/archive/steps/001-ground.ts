import { APPLICATION_ID } from '../file-header.ts';

/*
 * The ground: what a station is, when somebody was there, what was read and what was plugged in. Every row is a record:
 * it is added once and neither changed nor deleted. What comes later (the end of a visit, the end of a sweep) is a row of
 * its own. `seq` is the order in which this archive learned things; a clock may lie, `seq` doesn't. Each record names
 * the session (one run of the program) that made it.
 *
 * Quantities are integers, so that a record has one spelling: time in milliseconds since 1970 UTC, frequency in Hz,
 * level in thousandths of dBmV, losses in thousandths of a dB, temperature in thousandths of a degree C. The value of
 * a plug-in is what is printed on it, a label; it stays the number that the station file has.
 */
const time = (column: string) => `${column} INTEGER NOT NULL CHECK (${column} BETWEEN 0 AND 253402300799999)`;
const uuid = (column: string) => `${column} TEXT NOT NULL UNIQUE CHECK (length(${column}) = 36)`;
const seq = 'seq INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL';
const session = 'session INTEGER NOT NULL REFERENCES session (seq)';
const ambient = 'ambient_mc INTEGER CHECK (ambient_mc BETWEEN -90000 AND 90000)';
const plugIn = (column: string) => `${column} REAL NOT NULL CHECK (${column} BETWEEN 0 AND 1000)`;
const design = 'FOREIGN KEY (station_id, revision) REFERENCES design_revision (station_id, revision)';

const tables = `
CREATE TABLE session (
  ${seq},
  ${uuid('session_id')},
  ${time('opened_at')},
  program TEXT NOT NULL,
  host TEXT NOT NULL CHECK (host IN ('window', 'browser', 'memory')),
  utc_offset_min INTEGER NOT NULL CHECK (utc_offset_min BETWEEN -1440 AND 1440),
  time_zone TEXT NOT NULL
) STRICT;

CREATE TABLE station (
  ${seq},
  station_id TEXT NOT NULL UNIQUE CHECK (length(station_id) BETWEEN 1 AND 400),
  ${time('added_at')},
  ${session}
) STRICT;

CREATE TABLE design_revision (
  ${seq},
  station_id TEXT NOT NULL REFERENCES station (station_id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  name TEXT NOT NULL CHECK (length(name) >= 1),
  design TEXT NOT NULL CHECK (json_valid(design)),
  file_name TEXT NOT NULL,
  ${time('added_at')},
  ${session},
  UNIQUE (station_id, revision)
) STRICT;

CREATE TABLE visit (
  ${seq},
  ${uuid('visit_id')},
  station_id TEXT NOT NULL REFERENCES station (station_id),
  operator TEXT NOT NULL,
  ${ambient},
  ${time('cautions_read_at')},
  ${time('started_at')},
  ${session}
) STRICT;
CREATE INDEX visit_of_station ON visit (station_id, seq);

CREATE TABLE visit_end (
  visit INTEGER PRIMARY KEY NOT NULL REFERENCES visit (seq),
  note TEXT NOT NULL,
  ${time('ended_at')},
  ${session}
) STRICT;

CREATE TABLE sweep (
  ${seq},
  ${uuid('sweep_id')},
  visit INTEGER NOT NULL REFERENCES visit (seq),
  station_id TEXT NOT NULL,
  revision INTEGER NOT NULL,
  port_name TEXT NOT NULL CHECK (length(port_name) >= 1),
  has_design INTEGER NOT NULL CHECK (has_design IN (0, 1)),
  purpose TEXT NOT NULL CHECK (purpose IN ('as-found', 'as-left', 'check')),
  source TEXT NOT NULL CHECK (source IN ('meter', 'file')),
  source_name TEXT NOT NULL CHECK (length(source_name) >= 1),
  meter TEXT CHECK (json_valid(meter)),
  test_point_loss_mdb INTEGER NOT NULL CHECK (test_point_loss_mdb BETWEEN 0 AND 1000000),
  ${ambient},
  planned_count INTEGER NOT NULL CHECK (planned_count >= 1),
  plugged_in TEXT NOT NULL CHECK (json_valid(plugged_in)),
  ${time('started_at')},
  ${session},
  CHECK ((source = 'meter') = (meter IS NOT NULL)),
  ${design}
) STRICT;
CREATE INDEX sweep_of_station ON sweep (station_id, has_design, seq);
CREATE INDEX sweep_of_visit ON sweep (visit, seq);

CREATE TABLE reading (
  sweep INTEGER NOT NULL REFERENCES sweep (seq),
  place INTEGER NOT NULL CHECK (place >= 0),
  frequency_hz INTEGER NOT NULL CHECK (frequency_hz BETWEEN 1 AND 1000000000000),
  -- Null is a reading as well: the meter answered that it has no level there.
  meter_mdbmv INTEGER CHECK (meter_mdbmv BETWEEN -1000000 AND 1000000),
  kind TEXT CHECK (kind IN ('analog', 'qam', 'ofdm', 'cw')),
  ${time('taken_at')},
  PRIMARY KEY (sweep, place)
) STRICT, WITHOUT ROWID;

-- The text of a file that a sweep was taken from: it may hold more (labels, modulation) than a reading does.
CREATE TABLE sweep_file (
  sweep INTEGER PRIMARY KEY NOT NULL REFERENCES sweep (seq),
  body TEXT NOT NULL
) STRICT;

CREATE TABLE sweep_end (
  sweep INTEGER PRIMARY KEY NOT NULL REFERENCES sweep (seq),
  state TEXT NOT NULL CHECK (state IN ('complete', 'partial')),
  reason TEXT CHECK (length(reason) >= 1),
  -- Found without an end when the archive was opened: the program was killed, or the disk took no more.
  recovered INTEGER NOT NULL CHECK (recovered IN (0, 1)),
  reading_count INTEGER NOT NULL CHECK (reading_count >= 0),
  ${time('ended_at')},
  ${session},
  CHECK ((state = 'complete') = (reason IS NULL)),
  CHECK (recovered = 0 OR state = 'partial')
) STRICT;

CREATE TABLE proposal (
  ${seq},
  ${uuid('proposal_id')},
  visit INTEGER NOT NULL REFERENCES visit (seq),
  sweep INTEGER NOT NULL REFERENCES sweep (seq),
  station_id TEXT NOT NULL REFERENCES station (station_id),
  plug_ins TEXT NOT NULL CHECK (json_valid(plug_ins)),
  worst_before_mdb INTEGER NOT NULL,
  worst_predicted_mdb INTEGER NOT NULL,
  ${time('proposed_at')},
  ${session}
) STRICT;
CREATE INDEX proposal_of_station ON proposal (station_id, seq);

CREATE TABLE fitting (
  ${seq},
  ${uuid('fitting_id')},
  visit INTEGER NOT NULL REFERENCES visit (seq),
  station_id TEXT NOT NULL,
  -- The design revision that was the newest: what is plugged in now is its "installed" and the fittings under it.
  revision INTEGER NOT NULL,
  position TEXT NOT NULL CHECK (length(position) >= 1),
  ${plugIn('from_value')},
  ${plugIn('to_value')},
  proposal INTEGER REFERENCES proposal (seq),
  ${time('fitted_at')},
  ${session},
  ${design}
) STRICT;
CREATE INDEX fitting_of_station ON fitting (station_id, revision, seq);
`;

/** Every table here holds records. */
export const recordTables = [
  'session',
  'station',
  'design_revision',
  'visit',
  'visit_end',
  'sweep',
  'reading',
  'sweep_file',
  'sweep_end',
  'proposal',
  'fitting',
] as const;

const guards = recordTables
  .map(
    (table) => `
CREATE TRIGGER ${table}_is_never_changed BEFORE UPDATE ON ${table}
BEGIN SELECT RAISE(ABORT, '${table} is a record: it is never changed'); END;
CREATE TRIGGER ${table}_is_never_deleted BEFORE DELETE ON ${table}
BEGIN SELECT RAISE(ABORT, '${table} is a record: it is never deleted'); END;`,
  )
  .join('');

const order = `
CREATE TRIGGER one_open_visit BEFORE INSERT ON visit
WHEN EXISTS (SELECT 1 FROM visit v WHERE v.station_id = NEW.station_id
             AND NOT EXISTS (SELECT 1 FROM visit_end e WHERE e.visit = v.seq))
BEGIN SELECT RAISE(ABORT, 'the station has an open visit'); END;

CREATE TRIGGER an_ended_visit_takes_no_sweep BEFORE INSERT ON sweep
WHEN EXISTS (SELECT 1 FROM visit_end e WHERE e.visit = NEW.visit)
BEGIN SELECT RAISE(ABORT, 'the visit has ended'); END;

CREATE TRIGGER an_ended_visit_takes_no_fitting BEFORE INSERT ON fitting
WHEN EXISTS (SELECT 1 FROM visit_end e WHERE e.visit = NEW.visit)
BEGIN SELECT RAISE(ABORT, 'the visit has ended'); END;

CREATE TRIGGER an_ended_sweep_takes_no_reading BEFORE INSERT ON reading
WHEN EXISTS (SELECT 1 FROM sweep_end e WHERE e.sweep = NEW.sweep)
BEGIN SELECT RAISE(ABORT, 'the sweep has ended'); END;

CREATE TRIGGER readings_come_in_order BEFORE INSERT ON reading
WHEN NEW.place <> (SELECT coalesce(max(r.place) + 1, 0) FROM reading r WHERE r.sweep = NEW.sweep)
BEGIN SELECT RAISE(ABORT, 'a reading is missing before this one'); END;

CREATE TRIGGER an_end_counts_its_readings BEFORE INSERT ON sweep_end
WHEN NEW.reading_count <> (SELECT count(*) FROM reading r WHERE r.sweep = NEW.sweep)
BEGIN SELECT RAISE(ABORT, 'the end of the sweep counts other readings than there are'); END;

CREATE TRIGGER a_complete_sweep_lacks_nothing BEFORE INSERT ON sweep_end
WHEN NEW.state = 'complete'
 AND NEW.reading_count <> (SELECT s.planned_count FROM sweep s WHERE s.seq = NEW.sweep)
BEGIN SELECT RAISE(ABORT, 'a complete sweep has every planned reading'); END;
`;

export const ground = `PRAGMA application_id = ${APPLICATION_ID};\n${tables}${guards}\n${order}`;
