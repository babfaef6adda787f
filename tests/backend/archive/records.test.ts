import type Database from 'better-sqlite3';
import { describe, expect, it, vi } from 'vitest';
import { checkedRecord, recordDocuments } from '../../../core/files/record-documents.ts';
import { createDocuments } from '../../../electron/backend/archive/documents.ts';
import { recordTables as groundTables } from '../../../electron/backend/archive/steps/001-ground.ts';
import { gainControlTables } from '../../../electron/backend/archive/steps/002-gain-control.ts';
import { settingsTables } from '../../../electron/backend/archive/steps/003-settings.ts';
import { meterLinkTables } from '../../../electron/backend/archive/steps/004-meter-link.ts';
import { meterProofTables } from '../../../electron/backend/archive/steps/005-meter-proof.ts';
import { recordChainTables } from '../../../electron/backend/archive/steps/006-records-guards.ts';
import { trimTurnTables } from '../../../electron/backend/archive/steps/007-trim-turns.ts';
import { transferTables } from '../../../electron/backend/archive/steps/009-transfer.ts';
import { writtenFileTables } from '../../../electron/backend/archive/steps/011-written-files.ts';
import { connection } from '../../support/archive-connection.ts';
import { joined } from '../services/joined.ts';

/** A running sweep's journal, and what is worked out anew when it is missing. */
const noRecords = ['reading', 'station_face', 'judged_basis', 'judged_sweep', 'chain_pending'];
const recordTables = [
  ...groundTables.filter((table) => table !== 'reading'),
  ...gainControlTables,
  ...settingsTables,
  ...meterLinkTables,
  ...meterProofTables,
  ...recordChainTables,
  ...trimTurnTables,
  ...transferTables,
  ...writtenFileTables,
];

vi.mock('better-sqlite3', async (original) =>
  (await import('../../support/watched-sqlite.ts')).watched(await original()),
);

type Bench = Awaited<ReturnType<typeof joined>>;

async function fillGainControl({ handlers, visit, sent, signal, until }: Bench): Promise<void> {
  const { visitId } = visit;
  const at = { stationId: 'slipway', visitId, portName: 'forward output' };
  const { liveId } = await handlers['live.start']({ ...at, frequencyMhz: 711 }, signal);
  await until(() => sent.some(({ name }) => name === 'live.reading'));
  await handlers['live.stop']({ liveId }, signal);
  const asked = { topMhz: null, topCarrierMhz: null, pilotMhz: null, spanDb: null, ambientC: null };
  await handlers['set-up.begin']({ visitId, kind: 'check', ...asked }, signal);
  const skip = { outcome: 'skipped', by: 'hand', reason: 'rain', values: {}, liveId } as const;
  await handlers['set-up.record']({ visitId, step: 'sweep-as-found', ...skip }, signal);
  await handlers['set-up.abandon']({ visitId, reason: 'rain' }, signal);
  const watched = { frequenciesMhz: [711], pilotMhz: 711, everyS: 60, forS: null, ambientC: 12 };
  const { watchId } = await handlers['watch.start']({ ...at, ...watched }, signal);
  await until(() => sent.some(({ name }) => name === 'watch.round'));
  await handlers['watch.stop']({ watchId }, signal);
  const { stationIds } = await handlers['demo.load']({}, signal);
  const hand = { act: 'turn', turnDb: 1 } as const;
  await handlers['simulate.hand']({ stationId: stationIds[0] ?? '', hand }, signal);
}

async function fillSettings({ handlers, signal }: Bench): Promise<void> {
  const { settings, revision: basedOn } = await handlers['settings.read']({}, signal);
  const levelUnit = settings.levelUnit === 'dBuV' ? 'dBmV' : 'dBuV';
  await handlers['settings.change']({ basedOn, settings: { ...settings, levelUnit } }, signal);
  const notes = { format: 'tiltwright-station-notes/1' } as const;
  const about = await handlers['notes.read']({ stationId: 'slipway' }, signal);
  await handlers['notes.change']({ stationId: 'slipway', basedOn: about.revision, notes }, signal);
  const stock = await handlers['truck.read']({}, signal);
  const truck = { format: 'tiltwright-truck/1', parts: [] } as const;
  await handlers['truck.change']({ basedOn: stock.revision, truck: { ...truck, parts: [] } }, signal);
}

/** An archive with at least one row in every table, over the connection that the program itself uses. */
async function filled(): Promise<Database.Database> {
  const bench = await joined();
  const sweepId = await bench.start();
  await bench.endOf(sweepId);
  const { visitId } = bench.visit;
  const text = 'frequency_mhz,level_dbmv\n54,36\n';
  await bench.handlers['sweeps.import'](
    {
      visitId,
      portName: 'forward output',
      purpose: 'check',
      fileName: 'a.csv',
      text,
      testPointLossDb: 0,
      encoding: 'utf-16le',
    },
    bench.signal,
  );
  const values = { 'input pad': 3, 'input equalizer': 8 };
  const proposal = { sweepId, values, worstBeforeDb: 3, worstPredictedDb: 0.5 };
  await bench.handlers['parts.fit'](
    { visitId, changes: [{ position: 'input pad', from: 6, to: 3 }], proposal },
    bench.signal,
  );
  const turned = { name: 'gain', kind: 'gain', atMhz: 867, byDb: -0.7 } as const;
  await bench.handlers['trims.turn']({ visitId, sweepId, turns: [turned] }, bench.signal);
  await fillGainControl(bench);
  await fillSettings(bench);
  await bench.handlers['meters.calibration']({ dueOn: '2027-01-15' }, bench.signal);
  const db = connection();
  // As a program of before the portions kept a sweep's bytes.
  db.exec("INSERT INTO sweep_bytes VALUES (1, x'78', 1)");
  const device = '01234567-0123-4123-8123-0123456789ab';
  const hash = '0'.repeat(64);
  db.exec(`INSERT INTO taken_in VALUES (1, '${hash}', 'a.records.gz', '${device}', 0, 0, '', 1, 1, 1, 1);
    INSERT INTO conflict VALUES (1, 'visit', '${device}', '${device}', 1, '${hash}', '${hash}', '{}', NULL, 1);
    INSERT INTO device (device_id) VALUES ('${device}');
    INSERT INTO device_fork VALUES (2, 1)`);
  const said = { reason: 'the test point is a 16 dB one', operator: 'R. Voss' };
  const { sweepId: corrected } = await bench.handlers['sweeps.correct'](
    { sweepId, ...said, testPointLossDb: 16 },
    bench.signal,
  );
  await bench.handlers['sweeps.void']({ sweepId: corrected, ...said }, bench.signal);
  await bench.handlers['visits.end']({ visitId, note: '' }, bench.signal);
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
    expect([...recordTables, ...noRecords].sort()).toEqual(all.sort());
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

  it('is a document of its kind, and every kind is there', async () => {
    const db = await filled();
    const links = db
      .prepare<[], { kind: string; row: number; place: number }>(
        'SELECT kind, row, place FROM link ORDER BY seq',
      )
      .all();
    const documents = createDocuments(db);
    for (const { kind, row, place } of links) {
      const document = documents.of(kind, row, place);
      expect(checkedRecord(kind, document, kind)).toEqual({ ok: true, value: document });
    }
    expect(new Set(links.map(({ kind }) => kind))).toEqual(new Set(Object.keys(recordDocuments)));
  });

  it('fits its table or is not kept: no text for a number, no unknown word, no stray child', async () => {
    const db = await filled();
    const before = contentOf(db);
    const wrong = [
      "INSERT INTO reading VALUES (50, 0, '54,5', 20000, NULL, 0)",
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
      'visit, station_id, revision, port_name, has_design, purpose, source, source_name, meter, test_point_loss_mdb, ambient_mc, planned_count, plugged_in, started_at, session, order_ms';
    db.exec(
      "INSERT INTO visit VALUES (50, '00000000-0000-4000-8000-aaaaaaaaaaaa', 'slipway', '', NULL, 0, 0, 1, 0)",
    );
    db.exec(`INSERT INTO sweep (seq, sweep_id, ${columns})
      SELECT 50, '00000000-0000-4000-8000-bbbbbbbbbbbb', ${columns.replace('visit', '50').replace('planned_count', '3')} FROM sweep WHERE seq = 1`);
  };
  const reading = (place: number) =>
    `INSERT INTO reading VALUES (50, ${place}, 54000000, 20000, 'analog', 0)`;
  const levels = (count: number) => `INSERT INTO sweep_levels VALUES (50, 1, ${count}, x'0101')`;
  const end = (state: string, count: number, reason = 'NULL') =>
    `INSERT INTO sweep_end VALUES (50, '${state}', ${reason}, 0, ${count}, 0, 1)`;

  it('has no hole, no reading after its end, and an end that counts right', async () => {
    const db = await filled();
    header(db);
    db.exec(reading(0));
    expect(() => db.exec(reading(2))).toThrow('a reading is missing before this one');
    db.exec(reading(1));
    expect(() => db.exec(end('partial', 2, "'cut'"))).toThrow('before its readings are packed');
    expect(() => db.exec('DELETE FROM reading')).toThrow('never deleted before its sweep is packed');
    expect(() => db.exec(levels(1))).toThrow('a reading of the sweep is not among its packed ones');
    db.exec(levels(2));
    expect(() => db.exec(reading(2))).toThrow('the sweep has ended');
    db.exec('DELETE FROM reading WHERE sweep = 50');
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
        "INSERT INTO sweep (sweep_id, visit, station_id, revision, port_name, has_design, purpose, source, source_name, meter, test_point_loss_mdb, planned_count, plugged_in, started_at, session, order_ms) SELECT '00000000-0000-4000-8000-cccccccccccc', visit, station_id, revision, port_name, has_design, purpose, source, source_name, meter, test_point_loss_mdb, planned_count, plugged_in, started_at, session, order_ms FROM sweep WHERE seq = 1",
      ),
    ).toThrow('the visit has ended');
    db.exec(
      "INSERT INTO visit VALUES (50, '00000000-0000-4000-8000-aaaaaaaaaaaa', 'slipway', '', NULL, 0, 0, 1, 0)",
    );
    expect(() =>
      db.exec(
        "INSERT INTO visit VALUES (51, '00000000-0000-4000-8000-dddddddddddd', 'slipway', '', NULL, 0, 0, 1, 0)",
      ),
    ).toThrow('the station has an open visit');
  });
});

describe('what a gain control leaves in the archive', () => {
  it('has no hole and nothing after its end: live readings, steps of a set-up, rounds of a watch', async () => {
    const db = await filled();
    const refuses = (sql: string, why: string) => expect(() => db.exec(sql), sql).toThrow(why);
    const live = `'00000000-0000-4000-8000-eeeeeeeeeeee', station_id, revision, NULL, port_name, frequency_hz,
      test_point_loss_mdb, profile, meter, ambient_mc, plugged_in, started_at, session, order_ms FROM live LIMIT 1`;
    db.exec(`INSERT INTO live SELECT 70, ${live}`);
    db.exec('INSERT INTO live_reading VALUES (70, 0, 0, 20000, 0)');
    refuses('INSERT INTO live_reading VALUES (70, 2, 0, 20000, 0)', 'a live reading is missing');
    refuses('INSERT INTO live_end VALUES (70, NULL, 0, 2, 0, 1)', 'counts other readings');
    db.exec('INSERT INTO live_end VALUES (70, NULL, 0, 1, 0, 1)');
    refuses('INSERT INTO live_reading VALUES (70, 1, 0, 20000, 0)', 'this live reading has ended');

    const event = (setUp: number, place: number, outcome = 'done') =>
      `INSERT INTO set_up_event VALUES (${setUp}, ${place}, 'manual', '${outcome}', 'hand', NULL, '{}', NULL, 0, 1)`;
    db.exec(
      "INSERT INTO visit VALUES (60, '00000000-0000-4000-8000-aaaaaaaaaaaa', 'slipway', '', NULL, 0, 0, 1, 0)",
    );
    const setUp = (seq: number) =>
      `INSERT INTO set_up SELECT ${seq}, '00000000-0000-4000-8000-0000000000${seq}', 60, station_id, revision, plan, started_at, session, order_ms FROM set_up LIMIT 1`;
    db.exec(setUp(61));
    refuses(setUp(62), 'the visit has a set-up');
    refuses(event(61, 1), 'an event of the set-up is missing');
    refuses(event(61, 0, 'skipped'), 'CHECK');
    db.exec(event(61, 0));
    db.exec("INSERT INTO set_up_abandoned VALUES (61, 'rain', 0, 1)");
    refuses(event(61, 1), 'the set-up was given up');
    db.exec(setUp(63));
    db.exec("INSERT INTO visit_end VALUES (60, '', 0, 1)");
    refuses(event(63, 0), 'the visit has ended');
    refuses(setUp(64).replace(', 60,', ', 1,'), 'the visit has ended');
    refuses(
      `INSERT INTO live SELECT 71, ${live.replace('eeeeeeeeeeee', 'ffffffffffff').replace('NULL', '60')}`,
      'the visit has ended',
    );

    refuses("INSERT INTO watch_round VALUES (1, 1, 1, 'lost', 0, 1)", 'the watch has ended');
    const watch = (seq: number) =>
      `INSERT INTO watch SELECT ${seq}, '00000000-0000-4000-8000-0000000000${seq}', station_id, revision, visit, port_name, test_point_loss_mdb, frequencies, pilot_hz, every_ms, for_ms, started_at, session, order_ms FROM watch LIMIT 1`;
    db.exec(watch(81));
    refuses(watch(82), 'a watch is running');
    db.exec("INSERT INTO watch_round VALUES (81, 0, 3, 'asleep', 0, 1)");
    refuses('INSERT INTO watch_round VALUES (81, 1, 1, NULL, 0, 1)', 'a round of the watch is missing');
    refuses('INSERT INTO watch_round VALUES (81, 3, 2, NULL, 0, 1)', 'CHECK');
    refuses('INSERT INTO watch_level VALUES (81, 0, 0, 20000)', 'nothing was read in this round');
    refuses('INSERT INTO watch_level VALUES (81, 9, 0, 20000)', 'FOREIGN KEY');
    db.exec(
      'INSERT INTO watch_round VALUES (81, 3, 1, NULL, 0, 1); INSERT INTO watch_level VALUES (81, 3, 0, 20000)',
    );
  });
});
