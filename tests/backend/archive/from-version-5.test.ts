import { createHash } from 'node:crypto';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, it } from 'vitest';
import { writeMarker } from '../../../electron/backend/archive/marker.ts';
import { migrate, steps } from '../../../electron/backend/archive/migrate.ts';
import { ARCHIVE_FILE } from '../../../electron/backend/archive/open.ts';
import { verify } from '../../../electron/backend/services/verify.ts';
import { lookInto, openTestArchive, stationFile, throwAwayFolder } from '../../support/archive.ts';
import { joined } from '../services/joined.ts';

const signal = new AbortController().signal;
const uuid = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`;
/** Readings with everything that an older archive could hold: no level, every kind, a clock that goes back. */
const level = (sweep: number, place: number) => (place % 11 === 3 ? null : 16_000 + sweep * 137 - place * 61);
const kind = (place: number) => [null, 'analog', 'qam', 'ofdm', 'cw'][(place >> 2) % 5] ?? null;
const takenAt = (sweep: number, place: number) =>
  1_700_000_000_000 + sweep * 3_600_000 + place * 21 - (place % 9) * 40;
const COUNT = 40;

/** An archive as the program left it before records had a chain: two runs, the later one with the clock set back. */
function ofVersion5(): string {
  const folder = throwAwayFolder();
  const db = new Database(join(folder, ARCHIVE_FILE));
  migrate(db, steps.slice(0, 5));
  db.pragma('foreign_keys = ON');
  const at = 1_700_000_000_000;
  const design = stationFile();
  db.exec(`INSERT INTO session VALUES (1, '${uuid(1)}', ${at}, '0.1.0', 'window', 60, 'Europe/Berlin'),
      (2, '${uuid(2)}', ${at - 900_000}, '0.1.0', 'window', 60, 'Europe/Berlin');
    INSERT INTO station VALUES (1, 'slipway', ${at}, 1);`);
  db.prepare('INSERT INTO design_revision VALUES (1, ?, 1, ?, ?, ?, ?, 1)').run(
    'slipway',
    'Slipway 2',
    design,
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
  visit.run(1, uuid(11), at, at, 1);
  for (const seq of [1, 2, 3, 4]) {
    const session = seq < 3 ? 1 : 2;
    if (seq === 3) {
      db.exec(`INSERT INTO visit_end VALUES (1, 'first', ${at + 60_000}, 1)`);
      visit.run(2, uuid(12), at - 800_000, at - 800_000, 2);
    }
    sweep.run(seq, uuid(20 + seq), session, COUNT, (seq < 3 ? at : at - 700_000) + seq * 1000, session);
    for (let place = 0; place < COUNT - seq; place += 1)
      reading.run(
        seq,
        place,
        54_000_000 + place * 6_012_500,
        level(seq, place),
        kind(place),
        takenAt(seq, place),
      );
    portion.run(seq, Buffer.from(`bytes of ${seq}`));
    // The last one was running when the program was killed.
    if (seq < 4) end.run(seq, 'partial', 'stopped by hand', COUNT - seq, at + seq * 2000, session);
  }
  db.exec(`INSERT INTO fitting VALUES (1, '${uuid(31)}', 2, 'slipway', 1, 'input pad', 6.5, 3, NULL, ${at - 600_000}, 2);
    INSERT INTO settings_revision VALUES (1, 1, '{"levelUnit":"dBuV"}', ${at}, 1);`);
  db.close();
  writeMarker(folder);
  return folder;
}

it('keeps every reading of an older archive exactly, packed, and links all that it held', async () => {
  const folder = ofVersion5();
  const archive = openTestArchive(folder);
  for (const seq of [1, 2, 3, 4])
    expect(archive.sweeps.readings(seq), `sweep ${seq}`).toEqual(
      Array.from({ length: COUNT - seq }, (_, place) => ({
        frequencyHz: 54_000_000 + place * 6_012_500,
        meterMdbmv: level(seq, place),
        kind: kind(place),
        takenAtMs: takenAt(seq, place),
      })),
    );
  expect(archive.recovered).toMatchObject([{ sweepId: uuid(24), readingCount: COUNT - 4 }]);
  expect(archive.sweeps.byId(uuid(22))).toMatchObject({
    meter: '{"firmware":"1","maker":"m","model":"x","serialNumber":"7"}',
    pluggedIn: '{"input equalizer":8,"input pad":6.5}',
    state: 'partial',
    reason: 'stopped by hand',
    voidReason: null,
    corrects: null,
  });
  // The second run's clock was set back; its sweeps and its visit still come after those of the first.
  expect(archive.sweeps.ofStation('slipway').map(({ seq }) => seq)).toEqual([4, 3, 2, 1]);
  expect(archive.visits.ofStation('slipway').map(({ seq }) => seq)).toEqual([2, 1]);
  expect(archive.parts.fittedSinceDesign('slipway')).toEqual([{ position: 'input pad', toValue: 3 }]);
  const { broken, sweeps, records } = await verify(archive, signal);
  expect(broken).toEqual([]);
  expect(sweeps).toBe(4);
  // Two sessions and the one that recovered the sweep, a design, two visits, an end, four sweeps, a fitting, settings.
  expect(records).toBe(13);
  archive.close();
  lookInto(folder, (db) => {
    expect(db.prepare('SELECT count(*) FROM reading').pluck().get()).toBe(0);
    expect(db.pragma('foreign_key_check')).toEqual([]);
    expect(db.prepare('SELECT body FROM sweep_portion WHERE sweep = 2').pluck().get()).toEqual(
      Buffer.from('bytes of 2'),
    );
  });
});

it('is made once: opening it again changes no hash', () => {
  const folder = ofVersion5();
  const first = openTestArchive(folder);
  const head = first.head();
  first.close();
  const again = openTestArchive(folder);
  expect(again.head()).toEqual(head);
  again.close();
});

it('is as it was when the step fails or the program is killed in its middle', () => {
  const folder = ofVersion5();
  const content = () =>
    lookInto(folder, (db) => {
      const tables = db
        .prepare("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")
        .pluck()
        .all();
      const hash = createHash('sha256');
      for (const table of tables) hash.update(JSON.stringify(db.prepare(`SELECT * FROM ${table}`).all()));
      return `${hash.digest('hex')} ${db.pragma('user_version', { simple: true })}`;
    });
  const before = content();
  // The step that puts an archive of version 5 into a chain.
  const chained = steps[5];
  const broken = (db: Database.Database) => {
    if (typeof chained === 'function') chained(db);
    throw new Error('killed');
  };
  expect(() => openTestArchive(folder, [...steps.slice(0, 5), broken])).toThrow('killed');
  expect(content()).toBe(before);
  openTestArchive(folder).close();
});

it('counts what a newer session adds to the same chain', async () => {
  const folder = ofVersion5();
  openTestArchive(folder).close();
  // Its visit is open; the station's file is the same, so it adds nothing.
  lookInto(folder, (db) => db.exec("INSERT INTO visit_end VALUES (2, '', 0, 2)"));
  const bench = await joined({ folder });
  await bench.endOf(await bench.start());
  const { broken } = await verify(bench.archive, signal);
  // The end that this test put in by hand is the only stranger.
  expect(broken).toMatchObject([{ what: 'unlinked', kind: 'visit-end' }]);
});
