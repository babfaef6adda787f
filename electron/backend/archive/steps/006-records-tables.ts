/*
 * Records in chains, levels in few bytes, corrections and voids. A device is an archive that writes: a restored copy
 * begins a chain of its own. A record of another device may be taken in, so what only makes sense while records are made
 * (one open visit, nothing after an end) is asked of the own device's alone. `order_ms` puts records of all devices in
 * one order: never below that of the device's record before, whatever its clock says.
 */
const uuid = `lower(hex(randomblob(4)) || '-' || hex(randomblob(2)) || '-4' || substr(hex(randomblob(2)), 2) || '-a' ||
  substr(hex(randomblob(2)), 2) || '-' || hex(randomblob(6)))`;
const time = (column: string) => `${column} INTEGER NOT NULL CHECK (${column} BETWEEN 0 AND 253402300799999)`;
const seq = 'seq INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL';
const session = 'session INTEGER NOT NULL REFERENCES session (seq)';

export const chainTables = `
CREATE TABLE device (
  ${seq},
  device_id TEXT NOT NULL UNIQUE CHECK (length(device_id) = 36)
) STRICT;

-- The newest row says as which device this archive writes.
CREATE TABLE own_device (
  ${seq},
  device INTEGER NOT NULL UNIQUE REFERENCES device (seq)
) STRICT;
INSERT INTO device (device_id) VALUES (${uuid});
INSERT INTO own_device (device) VALUES (1);

CREATE TABLE link (
  ${seq},
  device INTEGER NOT NULL REFERENCES device (seq),
  device_seq INTEGER NOT NULL CHECK (device_seq >= 1),
  kind TEXT NOT NULL CHECK (length(kind) >= 1),
  -- Where in the tables of its kind the record is.
  row INTEGER NOT NULL,
  place INTEGER NOT NULL CHECK (place >= 0),
  -- Null: the hash of the device's link before this one, which is here.
  previous BLOB CHECK (length(previous) = 32),
  hash BLOB NOT NULL CHECK (length(hash) = 32),
  UNIQUE (device, device_seq),
  UNIQUE (kind, row, place)
) STRICT;

-- Until this row is gone, what the archive held before it had a chain is still to be linked.
CREATE TABLE chain_pending (one INTEGER PRIMARY KEY NOT NULL CHECK (one = 1)) STRICT;
INSERT INTO chain_pending SELECT 1 WHERE EXISTS (SELECT 1 FROM session);

ALTER TABLE session ADD COLUMN device INTEGER NOT NULL DEFAULT 1 REFERENCES device (seq);
`;

export const sweepTables = `
-- What many sweeps have in common, once: a meter's identity, what was plugged in.
CREATE TABLE shared_text (${seq}, body TEXT NOT NULL UNIQUE CHECK (json_valid(body))) STRICT;
INSERT INTO shared_text (body)
  SELECT meter FROM sweep WHERE meter IS NOT NULL UNION SELECT plugged_in FROM sweep;

CREATE TABLE frequency_list (${seq}, body BLOB NOT NULL UNIQUE CHECK (length(body) >= 2)) STRICT;

CREATE TABLE sweep_new (
  ${seq},
  sweep_id TEXT NOT NULL UNIQUE CHECK (length(sweep_id) = 36),
  visit INTEGER NOT NULL REFERENCES visit (seq),
  station_id TEXT NOT NULL,
  revision INTEGER NOT NULL,
  port_name TEXT NOT NULL CHECK (length(port_name) >= 1),
  has_design INTEGER NOT NULL CHECK (has_design IN (0, 1)),
  purpose TEXT NOT NULL CHECK (purpose IN ('as-found', 'as-left', 'check')),
  source TEXT NOT NULL CHECK (source IN ('meter', 'file')),
  source_name TEXT NOT NULL CHECK (length(source_name) >= 1),
  meter INTEGER REFERENCES shared_text (seq),
  test_point_loss_mdb INTEGER NOT NULL CHECK (test_point_loss_mdb BETWEEN 0 AND 1000000),
  ambient_mc INTEGER CHECK (ambient_mc BETWEEN -90000 AND 90000),
  planned_count INTEGER NOT NULL CHECK (planned_count >= 1),
  plugged_in INTEGER NOT NULL REFERENCES shared_text (seq),
  ${time('started_at')},
  ${session},
  order_ms INTEGER NOT NULL CHECK (order_ms >= 0),
  -- The sweep that this one says right; why and by whom is in sweep_correction.
  corrects INTEGER REFERENCES sweep (seq),
  CHECK ((source = 'meter') = (meter IS NOT NULL)),
  FOREIGN KEY (station_id, revision) REFERENCES design_revision (station_id, revision)
) STRICT;
INSERT INTO sweep_new
  SELECT seq, sweep_id, visit, station_id, revision, port_name, has_design, purpose, source, source_name,
    (SELECT t.seq FROM shared_text t WHERE t.body = s.meter), test_point_loss_mdb, ambient_mc, planned_count,
    (SELECT t.seq FROM shared_text t WHERE t.body = s.plugged_in), started_at, session, 0, NULL
  FROM sweep s ORDER BY seq;
DROP TABLE sweep;
ALTER TABLE sweep_new RENAME TO sweep;

CREATE TABLE sweep_levels (
  sweep INTEGER PRIMARY KEY NOT NULL REFERENCES sweep (seq),
  frequency_list INTEGER NOT NULL REFERENCES frequency_list (seq),
  reading_count INTEGER NOT NULL CHECK (reading_count >= 0),
  body BLOB NOT NULL CHECK (length(body) >= 2)
) STRICT;

CREATE TABLE sweep_correction (
  sweep INTEGER PRIMARY KEY NOT NULL REFERENCES sweep (seq),
  reason TEXT NOT NULL CHECK (length(reason) >= 1),
  operator TEXT NOT NULL CHECK (length(operator) >= 1),
  ${time('corrected_at')}
) STRICT;

CREATE TABLE sweep_void (
  ${seq},
  void_id TEXT NOT NULL UNIQUE CHECK (length(void_id) = 36),
  sweep INTEGER NOT NULL REFERENCES sweep (seq),
  reason TEXT NOT NULL CHECK (length(reason) >= 1),
  operator TEXT NOT NULL CHECK (length(operator) >= 1),
  ${time('voided_at')},
  ${session},
  order_ms INTEGER NOT NULL CHECK (order_ms >= 0)
) STRICT;
CREATE INDEX sweep_void_of_sweep ON sweep_void (sweep);

-- No record: the list of stations as it was last worked out, thrown away wherever a record changes it.
CREATE TABLE station_face (
  station INTEGER PRIMARY KEY NOT NULL REFERENCES station (seq),
  face TEXT NOT NULL CHECK (json_valid(face)),
  judged_by TEXT NOT NULL
) STRICT;
`;

/** Tables that get an `order_ms`, each with the column of its own time. */
export const ordered = [
  ['design_revision', 'added_at'],
  ['visit', 'started_at'],
  ['proposal', 'proposed_at'],
  ['fitting', 'fitted_at'],
  ['live', 'started_at'],
  ['set_up', 'started_at'],
  ['watch', 'started_at'],
  ['settings_revision', 'changed_at'],
  ['notes_revision', 'changed_at'],
  ['truck_revision', 'changed_at'],
  ['meter_use', 'connected_at'],
  ['meter_calibration', 'noted_at'],
  ['simulated_hand', 'done_at'],
] as const;

export const orderColumns = `${ordered
  .map(
    ([table]) =>
      `ALTER TABLE ${table} ADD COLUMN order_ms INTEGER NOT NULL DEFAULT 0 CHECK (order_ms >= 0);
DROP TRIGGER ${table}_is_never_changed;`,
  )
  .join('\n')}
ALTER TABLE design_revision ADD COLUMN design_id TEXT NOT NULL DEFAULT '';
UPDATE design_revision SET design_id = ${uuid};
`;
