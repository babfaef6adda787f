/*
 * What the program was told and what it judges by: display units and the meters' uncertainty, notes beside a station's
 * file (line-up, trims), and the stock in the truck. Each change is a revision of its own, whole, so that for every
 * moment the archive shows what was in force. Null: nothing is kept from that revision on.
 */
const time = (column: string) => `${column} INTEGER NOT NULL CHECK (${column} BETWEEN 0 AND 253402300799999)`;
const seq = 'seq INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL';
const session = 'session INTEGER NOT NULL REFERENCES session (seq)';

const tables = `
CREATE TABLE settings_revision (
  ${seq},
  revision INTEGER NOT NULL UNIQUE CHECK (revision >= 1),
  settings TEXT NOT NULL CHECK (json_valid(settings)),
  ${time('changed_at')},
  ${session}
) STRICT;

CREATE TABLE notes_revision (
  ${seq},
  station_id TEXT NOT NULL REFERENCES station (station_id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  notes TEXT CHECK (json_valid(notes)),
  ${time('changed_at')},
  ${session},
  UNIQUE (station_id, revision)
) STRICT;

CREATE TABLE truck_revision (
  ${seq},
  revision INTEGER NOT NULL UNIQUE CHECK (revision >= 1),
  truck TEXT CHECK (json_valid(truck)),
  -- The visit in which parts went in and out; null where the stock was counted by hand.
  visit INTEGER REFERENCES visit (seq),
  ${time('changed_at')},
  ${session}
) STRICT;
`;

/** Every table here holds records. */
export const settingsTables = ['settings_revision', 'notes_revision', 'truck_revision'] as const;

const guards = settingsTables
  .map(
    (table) => `
CREATE TRIGGER ${table}_is_never_changed BEFORE UPDATE ON ${table}
BEGIN SELECT RAISE(ABORT, '${table} is a record: it is never changed'); END;
CREATE TRIGGER ${table}_is_never_deleted BEFORE DELETE ON ${table}
BEGIN SELECT RAISE(ABORT, '${table} is a record: it is never deleted'); END;`,
  )
  .join('');

const order = `
CREATE TRIGGER settings_revisions_come_in_order BEFORE INSERT ON settings_revision
WHEN NEW.revision <> (SELECT coalesce(max(r.revision) + 1, 1) FROM settings_revision r)
BEGIN SELECT RAISE(ABORT, 'a revision of the settings is missing before this one'); END;

CREATE TRIGGER notes_revisions_come_in_order BEFORE INSERT ON notes_revision
WHEN NEW.revision <> (SELECT coalesce(max(r.revision) + 1, 1) FROM notes_revision r WHERE r.station_id = NEW.station_id)
BEGIN SELECT RAISE(ABORT, 'a revision of the notes is missing before this one'); END;

CREATE TRIGGER truck_revisions_come_in_order BEFORE INSERT ON truck_revision
WHEN NEW.revision <> (SELECT coalesce(max(r.revision) + 1, 1) FROM truck_revision r)
BEGIN SELECT RAISE(ABORT, 'a revision of the truck is missing before this one'); END;
`;

export const settingsStep = `${tables}${guards}\n${order}`;
