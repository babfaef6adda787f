/*
 * What went over a meter's wire while a sweep was read, and which meter was used last. The bytes are a packed tape
 * (deflate), with the profile by which they were read, so that a reading can be looked at again years later.
 */
const time = (column: string) => `${column} INTEGER NOT NULL CHECK (${column} BETWEEN 0 AND 253402300799999)`;
const session = 'session INTEGER NOT NULL REFERENCES session (seq)';

const tables = `
CREATE TABLE sweep_bytes (
  sweep INTEGER PRIMARY KEY NOT NULL REFERENCES sweep (seq),
  body BLOB NOT NULL CHECK (length(body) >= 1),
  ${session}
) STRICT;

CREATE TABLE meter_use (
  seq INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  choice TEXT NOT NULL CHECK (json_valid(choice)),
  identity TEXT NOT NULL CHECK (json_valid(identity)),
  -- Which adapter its port was, whatever the port was called; null where nothing tells it from others.
  adapter TEXT CHECK (length(adapter) >= 1),
  ${time('connected_at')},
  ${session}
) STRICT;
`;

/** Every table here holds records. */
export const meterLinkTables = ['sweep_bytes', 'meter_use'] as const;

const guards = meterLinkTables
  .map(
    (table) => `
CREATE TRIGGER ${table}_is_never_changed BEFORE UPDATE ON ${table}
BEGIN SELECT RAISE(ABORT, '${table} is a record: it is never changed'); END;
CREATE TRIGGER ${table}_is_never_deleted BEFORE DELETE ON ${table}
BEGIN SELECT RAISE(ABORT, '${table} is a record: it is never deleted'); END;`,
  )
  .join('');

export const meterLink = `${tables}${guards}`;
