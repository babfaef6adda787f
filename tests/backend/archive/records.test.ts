import type Database from 'better-sqlite3';
import { describe, expect, it, vi } from 'vitest';
import { ARCHIVE_FILE } from '../../../electron/backend/archive/open.ts';
import { recordTables } from '../../../electron/backend/archive/steps/001-ground.ts';
import { joined } from '../services/joined.ts';

const opened = vi.hoisted(() => [] as Database.Database[]);
vi.mock('better-sqlite3', async (original) => {
  const { default: Real } = await original<{ default: typeof Database }>();
  class Watched extends Real {
    constructor(...given: ConstructorParameters<typeof Database>) {
      super(...given);
      opened.push(this);
    }
  }
  return { default: Watched };
});

/** An archive with at least one row in every table, over the connection that the program itself uses. */
async function filled(): Promise<Database.Database> {
  const bench = await joined();
  const sweepId = await bench.start();
  await bench.endOf(sweepId);
  const { visitId } = bench.visit;
  const text = 'frequency_mhz,level_dbmv\n54,36\n';
  await bench.handlers['sweeps.import'](
    { visitId, portName: 'forward output', purpose: 'check', fileName: 'a.csv', text, testPointLossDb: 0 },
    bench.signal,
  );
  const values = { 'input pad': 3, 'input equalizer': 8 };
  const proposal = { sweepId, values, worstBeforeDb: 3, worstPredictedDb: 0.5 };
  await bench.handlers['parts.fit'](
    { visitId, changes: [{ position: 'input pad', from: 6, to: 3 }], proposal },
    bench.signal,
  );
  await bench.handlers['visits.end']({ visitId, note: '' }, bench.signal);
  const db = opened.findLast((each) => each.open && each.name.endsWith(ARCHIVE_FILE));
  if (db === undefined) throw new Error('no connection');
  return db;
}

const contentOf = (db: Database.Database) =>
  Object.fromEntries(recordTables.map((table) => [table, db.prepare(`SELECT * FROM ${table}`).all()]));

describe('a record', () => {
  it('is neither changed, nor deleted, nor replaced, in any table', async () => {
    const db = await filled();
    const before = contentOf(db);
    const all = db
      .prepare("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
      .pluck()
      .all();
    expect([...recordTables].sort()).toEqual(all.sort());
    for (const table of recordTables) {
      expect(before[table]?.length, table).toBeGreaterThan(0);
      const columns = db.prepare('SELECT name FROM pragma_table_info(?)').pluck().all(table) as string[];
      for (const column of columns)
        expect(() => db.exec(`UPDATE ${table} SET ${column} = ${column}`), `${table}.${column}`).toThrow(
          `${table} is a record: it is never changed`,
        );
      expect(() => db.exec(`DELETE FROM ${table}`)).toThrow(`${table} is a record: it is never deleted`);
      expect(() => db.exec(`REPLACE INTO ${table} SELECT * FROM ${table} LIMIT 1`), table).toThrow();
    }
    expect(contentOf(db)).toEqual(before);
  });

  it('fits its table or is not kept: no text for a number, no unknown word, no stray child', async () => {
    const db = await filled();
    const before = contentOf(db);
    const wrong = [
      "INSERT INTO reading SELECT sweep, place + 1, '54,5', meter_mdbmv, kind, taken_at FROM reading LIMIT 1",
      "INSERT INTO visit_end VALUES (999, '', 0, 1)",
      "INSERT INTO station VALUES (NULL, '', 0, 1)",
      "INSERT INTO sweep_end VALUES (1, 'broken', NULL, 0, 6, 0, 1)",
    ];
    for (const sql of wrong) expect(() => db.exec(sql), sql).toThrow();
    expect(contentOf(db)).toEqual(before);
  });
});

describe('a sweep in the archive', () => {
  const header = (db: Database.Database) => {
    const columns =
      'visit, station_id, revision, port_name, has_design, purpose, source, source_name, meter, test_point_loss_mdb, ambient_mc, planned_count, plugged_in, started_at, session';
    db.exec(
      "INSERT INTO visit VALUES (50, '00000000-0000-4000-8000-aaaaaaaaaaaa', 'slipway', '', NULL, 0, 0, 1)",
    );
    db.exec(`INSERT INTO sweep (seq, sweep_id, ${columns})
      SELECT 50, '00000000-0000-4000-8000-bbbbbbbbbbbb', ${columns.replace('visit', '50').replace('planned_count', '3')} FROM sweep WHERE seq = 1`);
  };
  const reading = (place: number) =>
    `INSERT INTO reading VALUES (50, ${place}, 54000000, 20000, 'analog', 0)`;
  const end = (state: string, count: number, reason = 'NULL') =>
    `INSERT INTO sweep_end VALUES (50, '${state}', ${reason}, 0, ${count}, 0, 1)`;

  it('has no hole, no reading after its end, and an end that counts right', async () => {
    const db = await filled();
    header(db);
    db.exec(reading(0));
    expect(() => db.exec(reading(2))).toThrow('a reading is missing before this one');
    db.exec(reading(1));
    expect(() => db.exec(end('partial', 3, "'cut'"))).toThrow('counts other readings');
    expect(() => db.exec(end('complete', 2))).toThrow('a complete sweep has every planned reading');
    expect(() => db.exec(end('partial', 2))).toThrow(/CHECK/);
    db.exec(end('partial', 2, "'cut'"));
    expect(() => db.exec(reading(2))).toThrow('the sweep has ended');
  });

  it('is not begun in a visit that has ended, nor is a second visit opened', async () => {
    const db = await filled();
    expect(() =>
      db.exec(
        "INSERT INTO sweep (sweep_id, visit, station_id, revision, port_name, has_design, purpose, source, source_name, meter, test_point_loss_mdb, planned_count, plugged_in, started_at, session) SELECT '00000000-0000-4000-8000-cccccccccccc', visit, station_id, revision, port_name, has_design, purpose, source, source_name, meter, test_point_loss_mdb, planned_count, plugged_in, started_at, session FROM sweep WHERE seq = 1",
      ),
    ).toThrow('the visit has ended');
    db.exec(
      "INSERT INTO visit VALUES (50, '00000000-0000-4000-8000-aaaaaaaaaaaa', 'slipway', '', NULL, 0, 0, 1)",
    );
    expect(() =>
      db.exec(
        "INSERT INTO visit VALUES (51, '00000000-0000-4000-8000-dddddddddddd', 'slipway', '', NULL, 0, 0, 1)",
      ),
    ).toThrow('the station has an open visit');
  });
});
