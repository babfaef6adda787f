/*
 * What a gain control's set-up leaves behind: levels watched live, the steps of a set-up and what was decided in them,
 * and watches over hours or days. Records like those of the ground: added once, neither changed nor deleted, in integers
 * of the same units. What a step found out (`entered`) stays as it was given: it may be a level, a text or a sweep.
 */
const time = (column: string) => `${column} INTEGER NOT NULL CHECK (${column} BETWEEN 0 AND 253402300799999)`;
const uuid = (column: string) => `${column} TEXT NOT NULL UNIQUE CHECK (length(${column}) = 36)`;
const hz = (column: string) => `${column} INTEGER NOT NULL CHECK (${column} BETWEEN 1 AND 1000000000000)`;
const level = 'meter_mdbmv INTEGER CHECK (meter_mdbmv BETWEEN -1000000 AND 1000000)';
const lossMdb = 'test_point_loss_mdb INTEGER NOT NULL CHECK (test_point_loss_mdb BETWEEN 0 AND 1000000)';
const ambient = 'ambient_mc INTEGER CHECK (ambient_mc BETWEEN -90000 AND 90000)';
const seq = 'seq INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL';
const session = 'session INTEGER NOT NULL REFERENCES session (seq)';
const json = (column: string) => `${column} TEXT NOT NULL CHECK (json_valid(${column}))`;
const place = (column: string) => `${column} INTEGER NOT NULL CHECK (${column} >= 0)`;
const atStation = `station_id TEXT NOT NULL,
  revision INTEGER NOT NULL`;
const design = 'FOREIGN KEY (station_id, revision) REFERENCES design_revision (station_id, revision)';

const tables = `
CREATE TABLE live (
  ${seq},
  ${uuid('live_id')},
  ${atStation},
  visit INTEGER REFERENCES visit (seq),
  port_name TEXT NOT NULL CHECK (length(port_name) >= 1),
  ${hz('frequency_hz')},
  ${lossMdb},
  profile TEXT NOT NULL CHECK (length(profile) >= 1),
  ${json('meter')},
  ${ambient},
  ${json('plugged_in')},
  ${time('started_at')},
  ${session},
  ${design}
) STRICT;
CREATE INDEX live_of_visit ON live (visit, seq);

CREATE TABLE live_reading (
  live INTEGER NOT NULL REFERENCES live (seq),
  ${place('place')},
  -- On a clock that never goes back, from the start of the run.
  elapsed_ms INTEGER NOT NULL CHECK (elapsed_ms >= 0),
  ${level},
  ${time('taken_at')},
  PRIMARY KEY (live, place)
) STRICT, WITHOUT ROWID;

CREATE TABLE live_end (
  live INTEGER PRIMARY KEY NOT NULL REFERENCES live (seq),
  -- Null: stopped by hand.
  reason TEXT CHECK (length(reason) >= 1),
  recovered INTEGER NOT NULL CHECK (recovered IN (0, 1)),
  reading_count INTEGER NOT NULL CHECK (reading_count >= 0),
  ${time('ended_at')},
  ${session}
) STRICT;

CREATE TABLE set_up (
  ${seq},
  ${uuid('set_up_id')},
  visit INTEGER NOT NULL REFERENCES visit (seq),
  ${atStation},
  ${json('plan')},
  ${time('started_at')},
  ${session},
  ${design}
) STRICT;
CREATE INDEX set_up_of_visit ON set_up (visit, seq);
CREATE INDEX set_up_of_station ON set_up (station_id, seq);

CREATE TABLE set_up_event (
  set_up INTEGER NOT NULL REFERENCES set_up (seq),
  ${place('place')},
  step TEXT NOT NULL CHECK (length(step) >= 1),
  outcome TEXT NOT NULL CHECK (outcome IN ('done', 'skipped', 'redo')),
  by TEXT NOT NULL CHECK (by IN ('reading', 'hand')),
  reason TEXT CHECK (length(reason) >= 1),
  ${json('entered')},
  live INTEGER REFERENCES live (seq),
  ${time('happened_at')},
  ${session},
  PRIMARY KEY (set_up, place),
  CHECK (outcome <> 'skipped' OR reason IS NOT NULL)
) STRICT, WITHOUT ROWID;

CREATE TABLE set_up_abandoned (
  set_up INTEGER PRIMARY KEY NOT NULL REFERENCES set_up (seq),
  reason TEXT NOT NULL CHECK (length(reason) >= 1),
  ${time('abandoned_at')},
  ${session}
) STRICT;

CREATE TABLE watch (
  ${seq},
  ${uuid('watch_id')},
  ${atStation},
  visit INTEGER REFERENCES visit (seq),
  port_name TEXT NOT NULL CHECK (length(port_name) >= 1),
  ${lossMdb},
  -- In Hz, in the order in which they are read.
  ${json('frequencies')},
  pilot_hz INTEGER CHECK (pilot_hz >= 1),
  every_ms INTEGER NOT NULL CHECK (every_ms >= 1),
  -- Null: until it is stopped.
  for_ms INTEGER CHECK (for_ms >= 1),
  ${time('started_at')},
  ${session},
  ${design}
) STRICT;
CREATE INDEX watch_of_station ON watch (station_id, seq);

-- Which meter read the rounds from this one on.
CREATE TABLE watch_meter (
  ${seq},
  watch INTEGER NOT NULL REFERENCES watch (seq),
  ${place('from_round')},
  ${json('choice')},
  ${json('meter')},
  profile TEXT NOT NULL CHECK (length(profile) >= 1),
  ${time('connected_at')},
  ${session}
) STRICT;
CREATE INDEX watch_meter_of_watch ON watch_meter (watch, seq);

CREATE TABLE watch_round (
  watch INTEGER NOT NULL REFERENCES watch (seq),
  ${place('round')},
  rounds INTEGER NOT NULL CHECK (rounds >= 1),
  -- Why nothing was read in these rounds; null for a round that was read.
  gap TEXT CHECK (length(gap) >= 1),
  ${time('taken_at')},
  ${session},
  PRIMARY KEY (watch, round),
  CHECK (gap IS NOT NULL OR rounds = 1)
) STRICT, WITHOUT ROWID;

CREATE TABLE watch_level (
  watch INTEGER NOT NULL,
  round INTEGER NOT NULL,
  -- Which of the watch's frequencies.
  ${place('place')},
  ${level},
  PRIMARY KEY (watch, round, place),
  FOREIGN KEY (watch, round) REFERENCES watch_round (watch, round)
) STRICT, WITHOUT ROWID;

CREATE TABLE watch_temperature (
  ${seq},
  watch INTEGER NOT NULL REFERENCES watch (seq),
  ambient_mc INTEGER NOT NULL CHECK (ambient_mc BETWEEN -90000 AND 90000),
  ${time('noted_at')},
  ${session}
) STRICT;
CREATE INDEX watch_temperature_of_watch ON watch_temperature (watch, seq);

CREATE TABLE watch_end (
  watch INTEGER PRIMARY KEY NOT NULL REFERENCES watch (seq),
  state TEXT NOT NULL CHECK (state IN ('complete', 'stopped', 'cut-short')),
  reason TEXT CHECK (length(reason) >= 1),
  ${time('ended_at')},
  ${session},
  CHECK ((state = 'cut-short') = (reason IS NOT NULL))
) STRICT;

-- What a hand did at a station of the simulated network, so that it stands the same after a restart.
CREATE TABLE simulated_hand (
  ${seq},
  station_id TEXT NOT NULL REFERENCES station (station_id),
  ${json('hand')},
  ${ambient},
  ${time('done_at')},
  ${session}
) STRICT;
CREATE INDEX simulated_hand_of_station ON simulated_hand (station_id, seq);
`;

/** Every table here holds records. */
export const gainControlTables = [
  'live',
  'live_reading',
  'live_end',
  'set_up',
  'set_up_event',
  'set_up_abandoned',
  'watch',
  'watch_meter',
  'watch_round',
  'watch_level',
  'watch_temperature',
  'watch_end',
  'simulated_hand',
] as const;

const guards = gainControlTables
  .map(
    (table) => `
CREATE TRIGGER ${table}_is_never_changed BEFORE UPDATE ON ${table}
BEGIN SELECT RAISE(ABORT, '${table} is a record: it is never changed'); END;
CREATE TRIGGER ${table}_is_never_deleted BEFORE DELETE ON ${table}
BEGIN SELECT RAISE(ABORT, '${table} is a record: it is never deleted'); END;`,
  )
  .join('');

const refuses = (name: string, table: string, when: string, words: string) =>
  `CREATE TRIGGER ${name} BEFORE INSERT ON ${table} WHEN ${when} BEGIN SELECT RAISE(ABORT, '${words}'); END;\n`;
const endedVisit = (visit: string) => `EXISTS (SELECT 1 FROM visit_end e WHERE e.visit = ${visit})`;

const order = [
  refuses('an_ended_visit_takes_no_live', 'live', endedVisit('NEW.visit'), 'the visit has ended'),
  refuses('an_ended_visit_takes_no_set_up', 'set_up', endedVisit('NEW.visit'), 'the visit has ended'),
  refuses(
    'an_ended_visit_takes_no_step',
    'set_up_event',
    endedVisit('(SELECT s.visit FROM set_up s WHERE s.seq = NEW.set_up)'),
    'the visit has ended',
  ),
  refuses(
    'an_ended_live_takes_no_reading',
    'live_reading',
    'EXISTS (SELECT 1 FROM live_end e WHERE e.live = NEW.live)',
    'this live reading has ended',
  ),
  refuses(
    'live_readings_come_in_order',
    'live_reading',
    'NEW.place <> (SELECT coalesce(max(r.place) + 1, 0) FROM live_reading r WHERE r.live = NEW.live)',
    'a live reading is missing before this one',
  ),
  refuses(
    'a_live_end_counts_its_readings',
    'live_end',
    'NEW.reading_count <> (SELECT count(*) FROM live_reading r WHERE r.live = NEW.live)',
    'the end of the live reading counts other readings than there are',
  ),
  refuses(
    'one_set_up_in_a_visit',
    'set_up',
    `EXISTS (SELECT 1 FROM set_up s WHERE s.visit = NEW.visit
      AND NOT EXISTS (SELECT 1 FROM set_up_abandoned a WHERE a.set_up = s.seq))`,
    'the visit has a set-up',
  ),
  refuses(
    'set_up_events_come_in_order',
    'set_up_event',
    'NEW.place <> (SELECT coalesce(max(e.place) + 1, 0) FROM set_up_event e WHERE e.set_up = NEW.set_up)',
    'an event of the set-up is missing before this one',
  ),
  refuses(
    'an_abandoned_set_up_takes_no_step',
    'set_up_event',
    'EXISTS (SELECT 1 FROM set_up_abandoned a WHERE a.set_up = NEW.set_up)',
    'the set-up was given up',
  ),
  refuses(
    'one_watch_at_a_time',
    'watch',
    'EXISTS (SELECT 1 FROM watch w WHERE NOT EXISTS (SELECT 1 FROM watch_end e WHERE e.watch = w.seq))',
    'a watch is running',
  ),
  refuses(
    'watch_rounds_come_in_order',
    'watch_round',
    `NEW.round <> coalesce((SELECT r.round + r.rounds FROM watch_round r WHERE r.watch = NEW.watch
      ORDER BY r.round DESC LIMIT 1), 0)`,
    'a round of the watch is missing before this one',
  ),
  refuses(
    'an_ended_watch_takes_no_round',
    'watch_round',
    'EXISTS (SELECT 1 FROM watch_end e WHERE e.watch = NEW.watch)',
    'the watch has ended',
  ),
  refuses(
    'a_gap_has_no_level',
    'watch_level',
    `EXISTS (SELECT 1 FROM watch_round r WHERE r.watch = NEW.watch AND r.round = NEW.round AND r.gap IS NOT NULL)`,
    'nothing was read in this round',
  ),
].join('');

export const gainControl = `${tables}${guards}\n${order}`;
