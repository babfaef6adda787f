/*
 * The bytes of a sweep in portions, each in the transaction of the readings that were made of it, so that they outlive a
 * killed program as the readings do; and what a technician read on a meter's calibration sticker.
 */
const time = (column: string) => `${column} INTEGER NOT NULL CHECK (${column} BETWEEN 0 AND 253402300799999)`;
const session = 'session INTEGER NOT NULL REFERENCES session (seq)';

const tables = `
CREATE TABLE sweep_portion (
  sweep INTEGER NOT NULL REFERENCES sweep (seq),
  place INTEGER NOT NULL CHECK (place >= 0),
  -- Deflated with what the portions before it say as its dictionary.
  body BLOB NOT NULL CHECK (length(body) >= 1),
  PRIMARY KEY (sweep, place)
) STRICT, WITHOUT ROWID;

CREATE TABLE meter_calibration (
  seq INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  maker TEXT NOT NULL,
  model TEXT NOT NULL,
  -- Empty where the meter tells none; then the adapter tells it from others.
  serial_number TEXT NOT NULL,
  adapter TEXT CHECK (length(adapter) >= 1),
  -- The last day on which it counts, as YYYY-MM-DD; null: what was noted before counts no more.
  due_on TEXT CHECK (due_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  ${time('noted_at')},
  ${session}
) STRICT;
CREATE INDEX meter_calibration_of_meter ON meter_calibration (serial_number, seq);
`;

/** Every table here holds records. */
export const meterProofTables = ['sweep_portion', 'meter_calibration'] as const;

const guards = meterProofTables
  .map(
    (table) => `
CREATE TRIGGER ${table}_is_never_changed BEFORE UPDATE ON ${table}
BEGIN SELECT RAISE(ABORT, '${table} is a record: it is never changed'); END;
CREATE TRIGGER ${table}_is_never_deleted BEFORE DELETE ON ${table}
BEGIN SELECT RAISE(ABORT, '${table} is a record: it is never deleted'); END;`,
  )
  .join('');

const order = `
CREATE TRIGGER an_ended_sweep_takes_no_portion BEFORE INSERT ON sweep_portion
WHEN EXISTS (SELECT 1 FROM sweep_end e WHERE e.sweep = NEW.sweep)
BEGIN SELECT RAISE(ABORT, 'the sweep has ended'); END;

CREATE TRIGGER portions_come_in_order BEFORE INSERT ON sweep_portion
WHEN NEW.place <> (SELECT coalesce(max(p.place) + 1, 0) FROM sweep_portion p WHERE p.sweep = NEW.sweep)
BEGIN SELECT RAISE(ABORT, 'a portion is missing before this one'); END;
`;

export const meterProof = `${tables}${guards}\n${order}`;
