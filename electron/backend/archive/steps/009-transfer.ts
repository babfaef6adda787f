/*
 * Records of other laptops: which file they came in, which of them say otherwise than one that is here already, and
 * where one device id was written by two laptops (a copied folder): then the other's part of that chain has a device
 * row of its own, which names the one that it says it is.
 */
const time = (column: string) => `${column} INTEGER NOT NULL CHECK (${column} BETWEEN 0 AND 253402300799999)`;
const seq = 'seq INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL';
const count = (column: string) => `${column} INTEGER NOT NULL CHECK (${column} >= 0)`;

const tables = `
CREATE TABLE taken_in (
  ${seq},
  sha256 TEXT NOT NULL CHECK (length(sha256) = 64),
  file_name TEXT NOT NULL CHECK (length(file_name) >= 1),
  -- The laptop that made the file.
  device_id TEXT NOT NULL CHECK (length(device_id) = 36),
  ${time('made_at')},
  ${time('taken_at')},
  operator TEXT NOT NULL,
  ${count('records')},
  ${count('added')},
  ${count('conflicts')},
  session INTEGER NOT NULL REFERENCES session (seq)
) STRICT;
CREATE INDEX taken_in_of_file ON taken_in (sha256);

-- A record whose id is here with other words; which of the two is right is for people to say.
CREATE TABLE conflict (
  ${seq},
  kind TEXT NOT NULL CHECK (length(kind) >= 1),
  record_id TEXT NOT NULL CHECK (length(record_id) >= 1),
  device_id TEXT NOT NULL CHECK (length(device_id) = 36),
  device_seq INTEGER NOT NULL CHECK (device_seq >= 1),
  previous TEXT NOT NULL CHECK (length(previous) = 64),
  hash TEXT NOT NULL UNIQUE CHECK (length(hash) = 64),
  document TEXT NOT NULL CHECK (json_valid(document)),
  -- Name to base64, as the file had them; null without any.
  attachments TEXT CHECK (json_valid(attachments)),
  taken_in INTEGER NOT NULL REFERENCES taken_in (seq)
) STRICT;
CREATE INDEX conflict_of_record ON conflict (kind, record_id);

CREATE TABLE device_fork (
  device INTEGER PRIMARY KEY NOT NULL REFERENCES device (seq),
  of_device INTEGER NOT NULL REFERENCES device (seq)
) STRICT;
CREATE INDEX design_of_station_in_order ON design_revision (station_id, order_ms);
`;

/** Every table here holds records. */
export const transferTables = ['taken_in', 'conflict', 'device_fork'] as const;

const guards = transferTables
  .map(
    (table) => `
CREATE TRIGGER ${table}_is_never_changed BEFORE UPDATE ON ${table}
BEGIN SELECT RAISE(ABORT, '${table} is a record: it is never changed'); END;
CREATE TRIGGER ${table}_is_never_deleted BEFORE DELETE ON ${table}
BEGIN SELECT RAISE(ABORT, '${table} is a record: it is never deleted'); END;`,
  )
  .join('');

export const transfer = `${tables}${guards}`;
