import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import Database from 'better-sqlite3';
import { expect, it, onTestFinished, vi } from 'vitest';
import { Settings } from '../../../core/bridge/settings-calls.ts';
import { Truck } from '../../../core/files/truck.ts';
import { countIn } from '../../../core/files/truck-moves.ts';
import { migrate } from '../../../electron/backend/archive/migrate.ts';
import { settingsTables } from '../../../electron/backend/archive/steps/003-settings.ts';
import { lookInto, openTestArchive, stationFile, throwAwayFolder } from '../../support/archive.ts';

vi.setConfig({ testTimeout: 120_000 });

/** An archive with one row in each of the three tables. */
function filled(): Database.Database {
  const db = new Database(':memory:');
  onTestFinished(() => {
    db.close();
  });
  db.pragma('foreign_keys = ON');
  db.pragma('recursive_triggers = ON');
  migrate(db);
  db.exec(`
    INSERT INTO session VALUES (1, '00000000-0000-4000-8000-000000000001', 0, 'test', 'memory', 0, 'UTC', 1);
    INSERT INTO station VALUES (1, 'slipway', 0, 1);
    INSERT INTO settings_revision VALUES (1, 1, '{}', 0, 1, 0);
    INSERT INTO notes_revision VALUES (1, 'slipway', 1, NULL, 0, 1, 0);
    INSERT INTO truck_revision VALUES (1, 1, NULL, NULL, 0, 1, 0);`);
  return db;
}

it.each(settingsTables)('%s is neither changed, nor deleted, nor replaced', (table) => {
  const db = filled();
  const before = db.prepare(`SELECT * FROM ${table}`).all();
  const columns = db.prepare('SELECT name FROM pragma_table_info(?)').pluck().all(table) as string[];
  for (const column of columns)
    expect(() => db.exec(`UPDATE ${table} SET ${column} = ${column}`)).toThrow('it is never changed');
  expect(() => db.exec(`DELETE FROM ${table}`)).toThrow('it is never deleted');
  expect(() => db.exec(`REPLACE INTO ${table} SELECT * FROM ${table}`)).toThrow();
  expect(db.prepare(`SELECT * FROM ${table}`).all()).toEqual(before);
});

it.each([
  ["INSERT INTO settings_revision VALUES (2, 3, '{}', 0, 1, 0)", 'a revision of the settings is missing'],
  [
    "INSERT INTO notes_revision VALUES (2, 'slipway', 1, '{}', 0, 1, 0)",
    'a revision of the notes is missing',
  ],
  ["INSERT INTO truck_revision VALUES (2, 7, '{}', NULL, 0, 1, 0)", 'a revision of the truck is missing'],
  ["INSERT INTO settings_revision VALUES (2, 2, 'not json', 0, 1, 0)", 'CHECK'],
  ['INSERT INTO settings_revision VALUES (2, 2, NULL, 0, 1, 0)', 'NOT NULL'],
  ["INSERT INTO notes_revision VALUES (2, 'nowhere', 1, '{}', 0, 1, 0)", 'FOREIGN KEY'],
  ["INSERT INTO truck_revision VALUES (2, 2, '{}', 99, 0, 1, 0)", 'FOREIGN KEY'],
])('refuses %s', (sql, why) => {
  expect(() => filled().exec(sql)).toThrow(why);
});

it('a program killed in the middle loses no revision that it had told, and no part between truck and station', async () => {
  for (const lineCount of [3, 20, 61]) {
    const folder = throwAwayFolder();
    const program = fileURLToPath(new URL('settings-child.ts', import.meta.url));
    const child = spawn(process.execPath, [program, folder, stationFile()], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    let text = '';
    child.stdout.setEncoding('utf8').on('data', (more: string) => {
      text += more;
    });
    while (text.split('\n').length <= lineCount) {
      if (child.exitCode !== null) throw new Error('the program ended by itself');
      await new Promise((resolve) => setTimeout(resolve, 1));
    }
    child.kill('SIGKILL');
    if (child.exitCode === null && child.signalCode === null) await once(child, 'close');
    const told = text.split('\n').slice(0, -1);
    const lastOf = (word: string) => Number(told.findLast((line) => line.startsWith(word))?.split(' ')[1]);

    const archive = openTestArchive(folder);
    const settings = archive.settings.newestSettings();
    const truck = archive.settings.newestTruck();
    expect(settings?.revision).toBeGreaterThanOrEqual(lastOf('settings'));
    expect(truck?.revision).toBeGreaterThanOrEqual(lastOf('fitted'));
    expect(Settings.safeParse(JSON.parse(settings?.json ?? '')).success).toBe(true);
    const { toValue } = archive.parts.fittedSinceDesign('slipway').at(-1) ?? { toValue: Number.NaN };
    const stock = Truck.parse(JSON.parse(truck?.json ?? ''));
    // Of the pads 1 and 2 exactly one is in the station and the other in the truck, whenever the kill came.
    expect(countIn(stock, { kind: 'pad' }, toValue)).toBe(0);
    expect(countIn(stock, { kind: 'pad' }, 3 - toValue)).toBe(1);
    archive.close();
    expect(lookInto(folder, (db) => db.pragma('quick_check', { simple: true }))).toBe('ok');
  }
});
