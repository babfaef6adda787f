import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { FIRST_SETTINGS } from '../../core/bridge/settings-calls.ts';
import type { KeptReading } from '../../core/records/pack-readings.ts';
import { writeMarker } from '../../electron/backend/archive/marker.ts';
import { migrate, steps } from '../../electron/backend/archive/migrate.ts';
import { ARCHIVE_FILE } from '../../electron/backend/archive/open.ts';
import { orderedJson } from '../../electron/backend/archive/quantities.ts';
import { stationFile } from './station-file.ts';

/** The version before records had a chain. */
export const OLD_VERSION = 5;
export const OLD_COUNT = 40;
const { visitEveryMonths: _newer, ...firstSettings } = FIRST_SETTINGS;
/** The settings of that time did not tell how often a station is due. */
export const OLD_SETTINGS = orderedJson({ ...firstSettings, levelUnit: 'dBuV' });
/** How long ago it was begun. */
export const OLD_AT_MS = 1_700_000_000_000;

export const oldId = (n: number): string => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`;
export const oldSweepId = (seq: number): string => oldId(1000 + seq);

/** Readings with everything that an older archive could hold: no level, every kind, a clock that goes back. */
export const oldReading = (seq: number, place: number): KeptReading => ({
  frequencyHz: 54_000_000 + place * 6_012_500,
  meterMdbmv: place % 11 === 3 ? null : 16_000 + (seq % 97) * 137 - place * 61,
  kind: ([null, 'analog', 'qam', 'ofdm', 'cw'] as const)[(place >> 2) % 5] ?? null,
  takenAtMs: OLD_AT_MS + seq * 3_600_000 + place * 21 - (place % 9) * 40,
});
/** A sweep lacks as many readings as it has a number, up to 4. */
export const oldReadings = (seq: number): readonly KeptReading[] =>
  Array.from({ length: OLD_COUNT - Math.min(seq, 4) }, (_, place) => oldReading(seq, place));

/**
 * An archive as the program left it before records had a chain: two runs, the later one with the clock set back. Its
 * last sweep was running when the program was killed.
 * @param sweepCount  4 or more; the first two are of the first run
 */
export function makeOldArchive(folder: string, sweepCount = 4): void {
  mkdirSync(folder, { recursive: true });
  const db = new Database(join(folder, ARCHIVE_FILE));
  migrate(db, steps.slice(0, OLD_VERSION));
  db.pragma('foreign_keys = ON');
  const at = OLD_AT_MS;
  db.exec(`BEGIN; INSERT INTO session VALUES (1, '${oldId(1)}', ${at}, '0.1.0', 'window', 60, 'Europe/Berlin'),
      (2, '${oldId(2)}', ${at - 900_000}, '0.1.0', 'window', 60, 'Europe/Berlin');
    INSERT INTO station VALUES (1, 'slipway', ${at}, 1);`);
  db.prepare('INSERT INTO design_revision VALUES (1, ?, 1, ?, ?, ?, ?, 1)').run(
    'slipway',
    'Slipway 2',
    stationFile(),
    's.json',
    at,
  );
  const visit = db.prepare("INSERT INTO visit VALUES (?, ?, 'slipway', 'R. Voss', 12500, ?, ?, ?)");
  const sweep =
    db.prepare(`INSERT INTO sweep VALUES (?, ?, ?, 'slipway', 1, 'forward output', 1, 'as-found', 'meter', 'scpi',
    '{"firmware":"1","maker":"m","model":"x","serialNumber":"7"}', 20000, 12500, ?, '{"input equalizer":8,"input pad":6.5}', ?, ?)`);
  const reading = db.prepare('INSERT INTO reading VALUES (?, ?, ?, ?, ?, ?)');
  const portion = db.prepare('INSERT INTO sweep_portion VALUES (?, 0, ?)');
  const end = db.prepare('INSERT INTO sweep_end VALUES (?, ?, ?, 0, ?, ?, ?)');
  visit.run(1, oldId(11), at, at, 1);
  for (let seq = 1; seq <= sweepCount; seq += 1) {
    const session = seq < 3 ? 1 : 2;
    if (seq === 3) {
      db.exec(`INSERT INTO visit_end VALUES (1, 'first', ${at + 60_000}, 1)`);
      visit.run(2, oldId(12), at - 800_000, at - 800_000, 2);
    }
    const startedAt = (seq < 3 ? at : at - 700_000) + seq * 1000;
    sweep.run(seq, oldSweepId(seq), session, OLD_COUNT, startedAt, session);
    const readings = oldReadings(seq);
    readings.forEach(({ frequencyHz, meterMdbmv, kind, takenAtMs }, place) => {
      reading.run(seq, place, frequencyHz, meterMdbmv, kind, takenAtMs);
    });
    portion.run(seq, Buffer.from(`bytes of ${seq}`));
    if (seq < sweepCount)
      end.run(seq, 'partial', 'stopped by hand', readings.length, at + seq * 2000, session);
  }
  db.exec(`INSERT INTO fitting VALUES (1, '${oldId(31)}', 2, 'slipway', 1, 'input pad', 6.5, 3, NULL, ${at - 600_000}, 2);
    INSERT INTO settings_revision VALUES (1, 1, '${OLD_SETTINGS}', ${at}, 1); COMMIT`);
  db.close();
  writeMarker(folder);
}
