import type { Database, Statement } from 'better-sqlite3';
import type { Plain, PlainObject } from '../../../core/records/canonical-text.ts';
import { orderedJson } from './quantities.ts';
import { type Field, isSimple, type SimpleKind, simpleKinds } from './records.ts';

type Bound = string | number | null | Uint8Array;
/** A record on its way into the tables: a sweep's readings come packed, everything else as its document says. */
export type PutRecord = Readonly<{
  kind: string;
  document: PlainObject;
  /** The device row that it is of. */
  device: number;
  packed: Readonly<{ frequencies: Uint8Array; body: Uint8Array; count: number }> | null;
  /** What went over the wire, portion by portion, and the file that it was taken from. */
  raw: readonly Uint8Array[];
  file: string | null;
}>;
/** Where in the tables of its kind it is then. */
export type Put = Readonly<{ row: number; place: number }>;

/** The local number of what a UUID names. */
const numberOf = (as: Field['as']): string => {
  switch (as) {
    case 'plain':
    case 'decimal':
      return '?';
    case 'design':
      return '(SELECT r.revision FROM design_revision r WHERE r.design_id = ?)';
    case 'session':
    case 'visit':
    case 'sweep':
    case 'proposal':
    case 'live':
    case 'set_up':
      return `(SELECT r.seq FROM ${as} r WHERE r.${as}_id = ?)`;
  }
};

const bound = (value: Plain | undefined): Bound => {
  if (value === undefined) return null;
  if (value === null || typeof value === 'string' || typeof value === 'number') return value;
  return JSON.stringify(value);
};

/** Columns that are this archive's own numbering and in no document. */
const local: Readonly<Record<string, Readonly<{ column: string; sql: string; key: string | null }>>> = {
  session: { column: 'device', sql: '?', key: null },
  design: {
    column: 'revision',
    sql: '(SELECT coalesce(max(r.revision), 0) + 1 FROM design_revision r WHERE r.station_id = ?)',
    key: 'stationId',
  },
  notes: {
    column: 'revision',
    sql: '(SELECT coalesce(max(r.revision), 0) + 1 FROM notes_revision r WHERE r.station_id = ?)',
    key: 'stationId',
  },
};

const listOf = (value: Plain | undefined): readonly Plain[] => (Array.isArray(value) ? value : []);
const objectOf = (value: Plain | undefined): PlainObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as PlainObject) : {};

/** Puts records of other devices into the tables. The caller owns the transaction. */
export function recordPutter(db: Database): (record: PutRecord) => Put {
  const known = new Map<string, Statement>();
  const statement = (sql: string): Statement => {
    const found = known.get(sql);
    if (found !== undefined) return found;
    const made = db.prepare(sql);
    known.set(sql, made);
    return made;
  };
  const add = (table: string, columns: Readonly<Record<string, readonly [string, Bound]>>): number => {
    const names = Object.keys(columns);
    const parts = Object.values(columns);
    const sql = `INSERT INTO ${table} (${names.map((name) => `"${name}"`).join(', ')}) VALUES (${parts.map(([how]) => how).join(', ')})`;
    return Number(statement(sql).run(...parts.map(([, value]) => value)).lastInsertRowid);
  };
  const plain = (value: Plain | undefined) => ['?', bound(value)] as const;
  const of = (as: Field['as'], value: Plain | undefined) => [numberOf(as), bound(value)] as const;
  const seqOf = (as: 'set_up', id: Plain | undefined): number =>
    Number(statement(`SELECT seq FROM ${as} WHERE ${as}_id = ?`).pluck().get(bound(id)));
  const once = (table: string, value: string | Uint8Array): number => {
    const found = statement(`SELECT seq FROM ${table} WHERE body = ?`).pluck().get(value);
    return typeof found === 'number' ? found : add(table, { body: ['?', value] });
  };

  const putSimple = ({ kind, document, device }: PutRecord): Put => {
    if (!isSimple(kind)) throw new RangeError(`no record is of the kind "${kind}"`);
    const shape: SimpleKind = simpleKinds[kind];
    if (kind === 'design')
      statement(
        `INSERT INTO station (station_id, added_at, session) VALUES (?, ?, ${numberOf('session')}) ON CONFLICT DO NOTHING`,
      ).run(bound(document.stationId), bound(document.addedAtMs), bound(document.session));
    const columns: Record<string, readonly [string, Bound]> = {};
    for (const { key, column, as } of shape.fields)
      columns[column] = as === 'decimal' ? ['?', Number(document[key])] : of(as, document[key]);
    const own = local[kind];
    if (own !== undefined)
      columns[own.column] = [own.sql, own.key === null ? device : bound(document[own.key])];
    const added = add(shape.table, columns);
    return shape.place === null
      ? { row: added, place: 0 }
      : { row: seqOf('set_up', document.setUp), place: Number(document[shape.place]) };
  };

  const atPort = (document: PlainObject) => ({
    station_id: plain(document.stationId),
    revision: of('design', document.design),
    visit: of('visit', document.visit),
    port_name: plain(document.portName),
    test_point_loss_mdb: plain(document.testPointLossMdb),
    started_at: plain(document.startedAtMs),
    session: of('session', document.session),
    order_ms: plain(document.orderMs),
  });
  const end = (document: PlainObject) => {
    const { session, endedAtMs, readingCount, ...rest } = objectOf(document.end);
    return {
      ...Object.fromEntries(Object.entries(rest).map(([key, value]) => [key, plain(value)])),
      ...(readingCount === undefined ? {} : { reading_count: plain(readingCount) }),
      ended_at: plain(endedAtMs),
      session: of('session', session),
    };
  };

  const putSweep = ({ document, packed, raw, file }: PutRecord): Put => {
    if (packed === null) throw new RangeError('a sweep without its readings');
    const values = Object.entries(objectOf(document.pluggedIn)).map(([name, value]) => [name, Number(value)]);
    const row = add('sweep', {
      sweep_id: plain(document.sweepId),
      ...atPort(document),
      has_design: plain(document.hasDesign),
      purpose: plain(document.purpose),
      source: plain(document.source),
      source_name: plain(document.sourceName),
      meter: ['?', document.meter === null ? null : once('shared_text', orderedJson(document.meter))],
      ambient_mc: plain(document.ambientMc),
      planned_count: plain(document.plannedCount),
      plugged_in: ['?', once('shared_text', orderedJson(Object.fromEntries(values)))],
      corrects: of('sweep', objectOf(document.corrects).sweep ?? null),
    });
    if (document.corrects !== null) {
      const { reason, operator, correctedAtMs } = objectOf(document.corrects);
      const why = { reason: plain(reason), operator: plain(operator), corrected_at: plain(correctedAtMs) };
      add('sweep_correction', { sweep: ['?', row], ...why });
    }
    add('sweep_levels', {
      sweep: ['?', row],
      frequency_list: ['?', once('frequency_list', packed.frequencies)],
      reading_count: ['?', packed.count],
      body: ['?', packed.body],
    });
    if (file !== null) add('sweep_file', { sweep: ['?', row], body: ['?', file] });
    if (document.fileWritten !== undefined) {
      const { encoding, sha256 } = objectOf(document.fileWritten);
      add('sweep_file_written', { sweep: ['?', row], encoding: plain(encoding), sha256: plain(sha256) });
    }
    if (objectOf(document.raw).form === 'whole')
      for (const body of raw)
        add('sweep_bytes', {
          sweep: ['?', row],
          body: ['?', body],
          session: of('session', document.session),
        });
    else
      raw.forEach((body, place) => {
        add('sweep_portion', { sweep: ['?', row], place: ['?', place], body: ['?', body] });
      });
    add('sweep_end', { sweep: ['?', row], ...end(document) });
    return { row, place: 0 };
  };

  const putLive = ({ document }: PutRecord): Put => {
    const row = add('live', {
      live_id: plain(document.liveId),
      ...atPort(document),
      frequency_hz: plain(document.frequencyHz),
      profile: plain(document.profile),
      meter: plain(document.meter),
      ambient_mc: plain(document.ambientMc),
      plugged_in: plain(document.pluggedIn),
    });
    const { elapsedMs, meterMdbmv, takenAtMs } = objectOf(document.readings);
    const [levels, times] = [listOf(meterMdbmv), listOf(takenAtMs)];
    listOf(elapsedMs).forEach((elapsed, place) => {
      add('live_reading', {
        live: ['?', row],
        place: ['?', place],
        elapsed_ms: plain(elapsed),
        meter_mdbmv: plain(levels[place]),
        taken_at: plain(times[place]),
      });
    });
    add('live_end', { live: ['?', row], ...end(document) });
    return { row, place: 0 };
  };

  const putWatch = ({ document }: PutRecord): Put => {
    const row = add('watch', {
      watch_id: plain(document.watchId),
      ...atPort(document),
      frequencies: plain(document.frequencies),
      pilot_hz: plain(document.pilotHz),
      every_ms: plain(document.everyMs),
      for_ms: plain(document.forMs),
    });
    for (const meter of listOf(document.meters).map(objectOf))
      add('watch_meter', {
        watch: ['?', row],
        from_round: plain(meter.fromRound),
        choice: plain(meter.choice),
        meter: plain(meter.meter),
        profile: plain(meter.profile),
        connected_at: plain(meter.connectedAtMs),
        session: of('session', meter.session),
      });
    const { round, rounds, gap, takenAtMs, session } = objectOf(document.rounds);
    listOf(round).forEach((number, i) => {
      add('watch_round', {
        watch: ['?', row],
        round: plain(number),
        rounds: plain(listOf(rounds)[i]),
        gap: plain(listOf(gap)[i]),
        taken_at: plain(listOf(takenAtMs)[i]),
        session: of('session', listOf(session)[i]),
      });
    });
    const levels = objectOf(document.levels);
    listOf(levels.round).forEach((number, i) => {
      add('watch_level', {
        watch: ['?', row],
        round: plain(number),
        place: plain(listOf(levels.place)[i]),
        meter_mdbmv: plain(listOf(levels.meterMdbmv)[i]),
      });
    });
    for (const noted of listOf(document.temperatures).map(objectOf))
      add('watch_temperature', {
        watch: ['?', row],
        ambient_mc: plain(noted.ambientMc),
        noted_at: plain(noted.notedAtMs),
        session: of('session', noted.session),
      });
    add('watch_end', { watch: ['?', row], ...end(document) });
    return { row, place: 0 };
  };

  return (record) => {
    switch (record.kind) {
      case 'sweep':
        return putSweep(record);
      case 'live':
        return putLive(record);
      case 'watch':
        return putWatch(record);
      default:
        return putSimple(record);
    }
  };
}
