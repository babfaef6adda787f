import { createHash } from 'node:crypto';
import type Database from 'better-sqlite3';
import { expect, it } from 'vitest';
import { steps } from '../../../electron/backend/archive/migrate.ts';
import { verify } from '../../../electron/backend/services/verify.ts';
import { lookInto, openTestArchive, throwAwayFolder } from '../../support/archive.ts';
import { makeOldArchive, OLD_COUNT, oldReadings, oldSweepId } from '../../support/old-archive.ts';
import { joined } from '../services/joined.ts';

const signal = new AbortController().signal;
function ofVersion5(): string {
  const folder = throwAwayFolder();
  makeOldArchive(folder);
  return folder;
}

it('keeps every reading of an older archive exactly, packed, and links all that it held', async () => {
  const folder = ofVersion5();
  const archive = openTestArchive(folder);
  for (const seq of [1, 2, 3, 4])
    expect(archive.sweeps.readings(seq), `sweep ${seq}`).toEqual(oldReadings(seq));
  expect(archive.recovered).toMatchObject([{ sweepId: oldSweepId(4), readingCount: OLD_COUNT - 4 }]);
  expect(archive.sweeps.byId(oldSweepId(2))).toMatchObject({
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
