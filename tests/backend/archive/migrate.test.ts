import Database from 'better-sqlite3';
import { expect, it, onTestFinished } from 'vitest';
import { APPLICATION_ID } from '../../../electron/backend/archive/file-header.ts';
import { migrate, steps } from '../../../electron/backend/archive/migrate.ts';

function emptyDatabase(): Database.Database {
  const db = new Database(':memory:');
  onTestFinished(() => {
    db.close();
  });
  return db;
}
const versionOf = (db: Database.Database) => db.pragma('user_version', { simple: true });
const tablesOf = (db: Database.Database) =>
  db
    .prepare("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name")
    .pluck()
    .all();

it('takes an empty database to the newest version, every table STRICT', () => {
  const db = emptyDatabase();
  migrate(db);
  expect(versionOf(db)).toBe(steps.length);
  expect(db.pragma('application_id', { simple: true })).toBe(APPLICATION_ID);
  const loose = db
    .prepare(
      "SELECT name FROM pragma_table_list WHERE schema = 'main' AND strict = 0 AND name NOT LIKE 'sqlite_%'",
    )
    .pluck()
    .all();
  expect(tablesOf(db)).toContain('reading');
  expect(loose).toEqual([]);
});

it('does nothing the second time', () => {
  const db = emptyDatabase();
  migrate(db);
  const before = db.prepare('SELECT sql FROM sqlite_schema').all();
  migrate(db);
  expect(db.prepare('SELECT sql FROM sqlite_schema').all()).toEqual(before);
});

it('runs only the steps that an older archive lacks', () => {
  const db = emptyDatabase();
  migrate(db, ['CREATE TABLE a (x INTEGER) STRICT;']);
  migrate(db, ['this is not run again', 'CREATE TABLE b (x INTEGER) STRICT;']);
  expect(tablesOf(db)).toEqual(['a', 'b']);
  expect(versionOf(db)).toBe(2);
});

it('keeps nothing of a step that fails in its middle, and everything of the steps before', () => {
  const db = emptyDatabase();
  const broken =
    'CREATE TABLE b (x INTEGER) STRICT; INSERT INTO b VALUES (1); CREATE TABLE a (x INTEGER) STRICT;';
  expect(() => migrate(db, ['CREATE TABLE a (x INTEGER) STRICT;', broken])).toThrow(/already exists/);
  expect(tablesOf(db)).toEqual(['a']);
  expect(versionOf(db)).toBe(1);
  expect(db.inTransaction).toBe(false);
});

it('refuses an archive of a newer program and says which', () => {
  const db = emptyDatabase();
  db.pragma('user_version = 7');
  expect(() => migrate(db, ['CREATE TABLE a (x INTEGER) STRICT;'])).toThrow(
    /version 7, and this program knows 1/,
  );
  expect(tablesOf(db)).toEqual([]);
});

it('reaches every list by an index, never by reading a whole table of readings or sweeps', () => {
  const db = emptyDatabase();
  migrate(db);
  const planOf = (sql: string) =>
    db
      .prepare(`EXPLAIN QUERY PLAN ${sql}`)
      .all()
      .map((row) => (row as { detail: string }).detail)
      .join('\n');
  const scans = /SCAN (sweep|reading|visit|fitting|proposal)\b(?! USING)/;
  expect(
    planOf("SELECT * FROM sweep WHERE station_id = 'x' AND has_design IN (0, 1) ORDER BY order_ms DESC"),
  ).not.toMatch(scans);
  expect(planOf("SELECT * FROM visit WHERE station_id = 'x' ORDER BY order_ms DESC")).not.toMatch(scans);
  expect(planOf("SELECT * FROM fitting WHERE station_id = 'x' ORDER BY order_ms DESC")).not.toMatch(scans);
  expect(planOf("SELECT * FROM proposal WHERE station_id = 'x' ORDER BY order_ms DESC")).not.toMatch(scans);
  expect(planOf('SELECT * FROM reading WHERE sweep = 1 ORDER BY place')).not.toMatch(scans);
  // The check itself sees a scan where there is one.
  expect(planOf("SELECT * FROM sweep WHERE purpose = 'check'")).toMatch(scans);
});
