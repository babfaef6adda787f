import { createHash } from 'node:crypto';
import type { Database } from 'better-sqlite3';
import type { Plain, PlainObject } from '../../../core/records/canonical-text.ts';
import { type KeptReading, unpackFrequencies, unpackReadings } from '../../../core/records/pack-readings.ts';
import {
  decimalText,
  type Field,
  isSimple,
  readingOfField,
  type SimpleKind,
  simpleKinds,
} from './records.ts';
import { remembered } from './remembered.ts';

type Row = Readonly<Record<string, string | number | null>>;
const LISTS_KEPT = 500;

const plain = (key: string, column: string): Field => ({ key, column, as: 'plain' });
const sweepFields: readonly Field[] = [
  plain('sweepId', 'sweep_id'),
  { key: 'visit', column: 'visit', as: 'visit' },
  plain('stationId', 'station_id'),
  { key: 'design', column: 'revision', as: 'design' },
  plain('portName', 'port_name'),
  plain('hasDesign', 'has_design'),
  plain('purpose', 'purpose'),
  plain('source', 'source'),
  plain('sourceName', 'source_name'),
  plain('testPointLossMdb', 'test_point_loss_mdb'),
  plain('ambientMc', 'ambient_mc'),
  plain('plannedCount', 'planned_count'),
  plain('startedAtMs', 'started_at'),
  plain('orderMs', 'order_ms'),
  { key: 'session', column: 'session', as: 'session' },
];
const liveFields: readonly Field[] = [
  plain('liveId', 'live_id'),
  { key: 'visit', column: 'visit', as: 'visit' },
  plain('stationId', 'station_id'),
  { key: 'design', column: 'revision', as: 'design' },
  plain('portName', 'port_name'),
  plain('frequencyHz', 'frequency_hz'),
  plain('testPointLossMdb', 'test_point_loss_mdb'),
  plain('profile', 'profile'),
  plain('meter', 'meter'),
  plain('ambientMc', 'ambient_mc'),
  plain('pluggedIn', 'plugged_in'),
  plain('startedAtMs', 'started_at'),
  plain('orderMs', 'order_ms'),
  { key: 'session', column: 'session', as: 'session' },
];
const watchFields: readonly Field[] = [
  plain('watchId', 'watch_id'),
  { key: 'visit', column: 'visit', as: 'visit' },
  plain('stationId', 'station_id'),
  { key: 'design', column: 'revision', as: 'design' },
  plain('portName', 'port_name'),
  plain('testPointLossMdb', 'test_point_loss_mdb'),
  plain('frequencies', 'frequencies'),
  plain('pilotHz', 'pilot_hz'),
  plain('everyMs', 'every_ms'),
  plain('forMs', 'for_ms'),
  plain('startedAtMs', 'started_at'),
  plain('orderMs', 'order_ms'),
  { key: 'session', column: 'session', as: 'session' },
];

/** The kinds whose rows are several; each is linked once, at its end. */
export const wholeKinds = ['sweep', 'live', 'watch'] as const;
export const recordKinds: readonly string[] = [...Object.keys(simpleKinds), ...wholeKinds];

const columnsOf = (fields: readonly Field[]) =>
  fields.map((field) => `${readingOfField(field)} AS "${field.key}"`).join(', ');
const SESSION = '(SELECT x.session_id FROM session x WHERE x.seq = t.session) AS session';

/** Several rows as one list a column. */
function inColumns(rows: readonly Row[], keys: readonly string[]): PlainObject {
  return Object.fromEntries(keys.map((key) => [key, rows.map((row) => row[key] ?? null)]));
}

/** What was plugged in, each value as it is printed on the part. */
const printed = (json: string): PlainObject =>
  Object.fromEntries(
    Object.entries(JSON.parse(json) as Record<string, number>).map(([name, value]) => [
      name,
      decimalText(value),
    ]),
  );

export type Documents = Readonly<{
  /**
   * A record as it is hashed and passed on, made anew from the tables; undefined when it is not there.
   * @throws  RangeError when what is there can't have been recorded by this program
   */
  of(kind: string, row: number, place: number): PlainObject | undefined;
  /** A sweep's packed readings. @throws RangeError when they are damaged */
  readings(sweep: number): readonly KeptReading[] | undefined;
}>;

/** Records as documents, from the tables that are their local form. */
export function createDocuments(db: Database): Documents {
  const simple = new Map<string, ReturnType<typeof prepareSimple>>();
  const prepareSimple = ({ table, fields, row, place }: SimpleKind) =>
    db.prepare<unknown[], Row>(
      `SELECT ${columnsOf(fields)} FROM ${table} t WHERE t.${row} = ?${place === null ? '' : ` AND t.${place} = ?`}`,
    );
  const simpleOf = (kind: keyof typeof simpleKinds, row: number, place: number): PlainObject | undefined => {
    const shape: SimpleKind = simpleKinds[kind];
    let statement = simple.get(kind);
    if (statement === undefined) {
      statement = prepareSimple(shape);
      simple.set(kind, statement);
    }
    const found = shape.place === null ? statement.get(row) : statement.get(row, place);
    if (found === undefined) return undefined;
    const document: Record<string, Plain> = { ...found };
    for (const { key, as } of shape.fields) {
      const value = found[key];
      if (as === 'decimal' && typeof value === 'number') document[key] = decimalText(value);
    }
    return document;
  };

  const sweep = db.prepare<[number], Row>(`SELECT ${columnsOf(sweepFields)},
    (SELECT x.body FROM shared_text x WHERE x.seq = t.meter) AS meter,
    (SELECT x.body FROM shared_text x WHERE x.seq = t.plugged_in) AS pluggedIn,
    (SELECT c.sweep_id FROM sweep c WHERE c.seq = t.corrects) AS corrects
    FROM sweep t WHERE t.seq = ?`);
  const correction = db.prepare<[number], Row>(
    'SELECT reason, operator, corrected_at AS correctedAtMs FROM sweep_correction WHERE sweep = ?',
  );
  const sweepEnd = db.prepare<[number], Row>(
    `SELECT state, reason, recovered, reading_count AS readingCount, ended_at AS endedAtMs, ${SESSION}
     FROM sweep_end t WHERE sweep = ?`,
  );
  const packed = db.prepare<[number], { list: number; body: Buffer }>(
    'SELECT frequency_list list, body FROM sweep_levels WHERE sweep = ?',
  );
  const frequencyList = db.prepare<[number], Buffer>('SELECT body FROM frequency_list WHERE seq = ?').pluck();
  const portions = db
    .prepare<[number], Buffer>('SELECT body FROM sweep_portion WHERE sweep = ? ORDER BY place')
    .pluck();
  const whole = db.prepare<[number], Buffer>('SELECT body FROM sweep_bytes WHERE sweep = ?').pluck();
  const file = db.prepare<[number], string>('SELECT body FROM sweep_file WHERE sweep = ?').pluck();
  const written = db.prepare<[number], Row>(
    'SELECT encoding, sha256 FROM sweep_file_written WHERE sweep = ?',
  );

  const lists = new Map<number, readonly number[]>();
  const listHz = (seq: number): readonly number[] => {
    const known = lists.get(seq);
    if (known !== undefined) return known;
    if (lists.size >= LISTS_KEPT) lists.clear();
    const list = unpackFrequencies(frequencyList.get(seq) ?? new Uint8Array());
    lists.set(seq, list);
    return list;
  };
  const readings = (seq: number): readonly KeptReading[] | undefined => {
    const row = packed.get(seq);
    return row === undefined ? undefined : unpackReadings(listHz(row.list), row.body);
  };
  const meterOf = remembered((json) => JSON.parse(json) as PlainObject);
  const pluggedInOf = remembered(printed);
  /** What went over the wire: how many portions, and one hash over all; the bytes themselves travel beside. */
  const rawOf = (seq: number): Plain => {
    const bodies = portions.all(seq);
    const older = bodies.length === 0 ? whole.get(seq) : undefined;
    if (bodies.length === 0 && older === undefined) return null;
    const hash = createHash('sha256');
    for (const body of older === undefined ? bodies : [older]) hash.update(body);
    return {
      form: older === undefined ? 'portions' : 'whole',
      count: bodies.length,
      sha256: hash.digest('hex'),
    };
  };
  const sweepOf = (seq: number): PlainObject | undefined => {
    const row = sweep.get(seq);
    const end = sweepEnd.get(seq);
    const kept = readings(seq);
    if (row === undefined || end === undefined || kept === undefined) return undefined;
    const text = file.get(seq);
    const fileWritten = text === undefined ? undefined : written.get(seq);
    const why = correction.get(seq);
    const { meter, pluggedIn, corrects, ...header } = row;
    return {
      ...header,
      meter: typeof meter === 'string' ? meterOf(meter) : null,
      pluggedIn: typeof pluggedIn === 'string' ? pluggedInOf(pluggedIn) : null,
      corrects: corrects === null && why === undefined ? null : { sweep: corrects ?? null, ...why },
      end,
      raw: rawOf(seq),
      fileSha256:
        text === undefined
          ? null
          : createHash('sha256')
              .update(text as string)
              .digest('hex'),
      // Files in UTF-8, and those of before this was kept, have no such key, so that their hashes are what they were.
      ...(fileWritten === undefined ? {} : { fileWritten }),
      readings: {
        frequencyHz: kept.map(({ frequencyHz }) => frequencyHz),
        meterMdbmv: kept.map(({ meterMdbmv }) => meterMdbmv),
        kind: kept.map(({ kind }) => kind),
        takenAtMs: kept.map(({ takenAtMs }) => takenAtMs),
      },
    };
  };

  const live = db.prepare<[number], Row>(`SELECT ${columnsOf(liveFields)} FROM live t WHERE t.seq = ?`);
  const liveEnd = db.prepare<[number], Row>(
    `SELECT reason, recovered, reading_count AS readingCount, ended_at AS endedAtMs, ${SESSION}
     FROM live_end t WHERE live = ?`,
  );
  const liveReadings = db.prepare<[number], Row>(
    `SELECT elapsed_ms AS elapsedMs, meter_mdbmv AS meterMdbmv, taken_at AS takenAtMs
     FROM live_reading WHERE live = ? ORDER BY place`,
  );
  const liveOf = (seq: number): PlainObject | undefined => {
    const row = live.get(seq);
    const end = liveEnd.get(seq);
    if (row === undefined || end === undefined) return undefined;
    const kept = liveReadings.all(seq);
    return { ...row, end, readings: inColumns(kept, ['elapsedMs', 'meterMdbmv', 'takenAtMs']) };
  };

  const watch = db.prepare<[number], Row>(`SELECT ${columnsOf(watchFields)} FROM watch t WHERE t.seq = ?`);
  const watchEnd = db.prepare<[number], Row>(
    `SELECT state, reason, ended_at AS endedAtMs, ${SESSION} FROM watch_end t WHERE watch = ?`,
  );
  const watchMeters = db.prepare<[number], Row>(
    `SELECT from_round AS fromRound, choice, meter, profile, connected_at AS connectedAtMs, ${SESSION}
     FROM watch_meter t WHERE watch = ? ORDER BY seq`,
  );
  const watchRounds = db.prepare<[number], Row>(
    `SELECT round, rounds, gap, taken_at AS takenAtMs, ${SESSION} FROM watch_round t WHERE watch = ? ORDER BY round`,
  );
  const watchLevels = db.prepare<[number], Row>(
    'SELECT round, place, meter_mdbmv AS meterMdbmv FROM watch_level WHERE watch = ? ORDER BY round, place',
  );
  const watchTemperatures = db.prepare<[number], Row>(
    `SELECT ambient_mc AS ambientMc, noted_at AS notedAtMs, ${SESSION} FROM watch_temperature t WHERE watch = ? ORDER BY seq`,
  );
  const watchOf = (seq: number): PlainObject | undefined => {
    const row = watch.get(seq);
    const end = watchEnd.get(seq);
    if (row === undefined || end === undefined) return undefined;
    return {
      ...row,
      end,
      meters: watchMeters.all(seq),
      rounds: inColumns(watchRounds.all(seq), ['round', 'rounds', 'gap', 'takenAtMs', 'session']),
      levels: inColumns(watchLevels.all(seq), ['round', 'place', 'meterMdbmv']),
      temperatures: watchTemperatures.all(seq),
    };
  };

  return {
    readings,
    of(kind, row, place) {
      if (kind === 'sweep') return sweepOf(row);
      if (kind === 'live') return liveOf(row);
      if (kind === 'watch') return watchOf(row);
      if (isSimple(kind)) return simpleOf(kind, row, place);
      throw new RangeError(`no record is of the kind "${kind}"`);
    },
  };
}
