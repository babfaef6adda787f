import type { Database } from 'better-sqlite3';
import { type KeptLevels, unpackFrequencies, unpackLevels } from '../../../core/records/pack-readings.ts';
import { JUDGED_COLUMNS, JUDGED_JOIN, type JudgedColumns, judgedStatements } from './judged-sweeps.ts';
import { mhzOf } from './quantities.ts';
import type { SweepRow } from './sweeps.ts';

/** Levels at the meter in the order in which they were read, without their times. */
export type SweepLevels = Readonly<{ frequenciesMhz: readonly number[] }> &
  Pick<KeptLevels, 'meterMdbmv' | 'kindOf'>;

/** An ended sweep at a port with a design line, as a judgement needs it. */
export type QualitySweepRow = Pick<
  SweepRow,
  | 'seq'
  | 'sweepId'
  | 'visitId'
  | 'stationId'
  | 'revision'
  | 'portName'
  | 'purpose'
  | 'source'
  | 'sourceName'
  | 'meter'
  | 'testPointLossMdb'
  | 'ambientMc'
  | 'pluggedIn'
  | 'startedAtMs'
  | 'reason'
> &
  Readonly<{ state: 'complete' | 'partial'; operator: string }> &
  JudgedColumns;

export type PeriodVisitRow = Readonly<{
  seq: number;
  visitId: string;
  stationId: string;
  stationName: string;
  operator: string;
  ambientMc: number | null;
  startedAtMs: number;
  endedAtMs: number | null;
  note: string | null;
  sweepCount: number;
}>;

export type PeriodChangeRow = Readonly<{ position: string; fromValue: number; toValue: number }>;

const SWEEP = `SELECT s.seq, s.sweep_id sweepId, v.visit_id visitId, s.station_id stationId, s.revision,
  s.port_name portName, s.purpose, s.source, s.source_name sourceName,
  (SELECT t.body FROM shared_text t WHERE t.seq = s.meter) meter,
  s.test_point_loss_mdb testPointLossMdb, s.ambient_mc ambientMc,
  (SELECT t.body FROM shared_text t WHERE t.seq = s.plugged_in) pluggedIn,
  s.started_at startedAtMs, e.state, e.reason, v.operator, ${JUDGED_COLUMNS}
  FROM sweep s JOIN visit v ON v.seq = s.visit JOIN sweep_end e ON e.sweep = s.seq ${JUDGED_JOIN}`;
/** As found and as left, neither void nor corrected by one that is not void. */
const COUNTS = `s.has_design = 1 AND s.purpose IN ('as-found', 'as-left')
  AND NOT EXISTS (SELECT 1 FROM sweep_void w WHERE w.sweep = s.seq)
  AND NOT EXISTS (SELECT 1 FROM sweep n WHERE n.corrects = s.seq
    AND NOT EXISTS (SELECT 1 FROM sweep_void w WHERE w.sweep = n.seq))`;
/** Records of all devices in one order; of one moment, as they were read. */
const ORDER = 's.order_ms, s.started_at, s.sweep_id';

/** Many sweeps read the same frequencies. */
const LISTS_KEPT = 500;

/** Reads for whoever looks at all stations at once, and what was judged for that. No record is written here. */
export function qualityQueries(archive: Database) {
  const sweepsOfIds = archive.prepare<[string], QualitySweepRow>(
    `${SWEEP} WHERE s.sweep_id IN (SELECT a.value FROM json_each(?) a)`,
  );
  const history = archive.prepare<[string], QualitySweepRow>(
    `${SWEEP} WHERE s.station_id = +? AND ${COUNTS} ORDER BY ${ORDER}`,
  );
  const ofVisit = archive.prepare<[number], QualitySweepRow>(
    `${SWEEP} WHERE s.visit = +? AND ${COUNTS} ORDER BY ${ORDER}`,
  );
  const visits = archive.prepare<[number, number], PeriodVisitRow>(`
    SELECT v.seq, v.visit_id visitId, v.station_id stationId,
      (SELECT d.name FROM design_revision d WHERE d.station_id = v.station_id ORDER BY d.revision DESC LIMIT 1) stationName,
      v.operator, v.ambient_mc ambientMc, v.started_at startedAtMs, e.ended_at endedAtMs, e.note,
      (SELECT count(*) FROM sweep w WHERE w.visit = v.seq) sweepCount
    FROM visit v LEFT JOIN visit_end e ON e.visit = v.seq
    WHERE v.started_at >= ? AND v.started_at < ? ORDER BY v.order_ms, v.visit_id`);
  const changes = archive.prepare<[number], PeriodChangeRow>(
    'SELECT position, from_value fromValue, to_value toValue FROM fitting WHERE visit = +? ORDER BY seq',
  );
  const noted = archive.prepare<[], string>('SELECT DISTINCT station_id FROM notes_revision').pluck();
  const setUp = archive.prepare<[], string>('SELECT DISTINCT station_id FROM set_up').pluck();
  const levels = archive.prepare<[number], Readonly<{ list: number; body: Buffer }>>(
    'SELECT frequency_list list, body FROM sweep_levels WHERE sweep = ?',
  );
  const frequencyList = archive
    .prepare<[number], Buffer>('SELECT body FROM frequency_list WHERE seq = ?')
    .pluck();
  const lists = new Map<number, Readonly<{ listHz: readonly number[]; frequenciesMhz: readonly number[] }>>();
  const listOf = (seq: number) => {
    const known = lists.get(seq);
    if (known !== undefined) return known;
    if (lists.size >= LISTS_KEPT) lists.clear();
    const listHz = unpackFrequencies(frequencyList.get(seq) ?? new Uint8Array());
    const list = { listHz, frequenciesMhz: listHz.map(mhzOf) };
    lists.set(seq, list);
    return list;
  };
  return {
    ...judgedStatements(archive),
    /** Of an ended sweep; undefined where it has none. @throws RangeError when they are damaged */
    levels: (sweep: number): SweepLevels | undefined => {
      const row = levels.get(sweep);
      if (row === undefined) return undefined;
      const { listHz, frequenciesMhz } = listOf(row.list);
      return { frequenciesMhz, ...unpackLevels(listHz, row.body) };
    },
    /** Those of them that have ended, in any order. */
    sweepsOfIds: (sweepIds: readonly string[]): readonly QualitySweepRow[] =>
      sweepsOfIds.all(JSON.stringify(sweepIds)),
    /** As-found and as-left sweeps that count, in the order in which they were read. */
    history: (stationId: string): readonly QualitySweepRow[] => history.all(stationId),
    sweepsOfVisit: (visit: number): readonly QualitySweepRow[] => ofVisit.all(visit),
    visitsBetween: (fromMs: number, toMs: number): readonly PeriodVisitRow[] => visits.all(fromMs, toMs),
    changesIn: (visit: number): readonly PeriodChangeRow[] => changes.all(visit),
    /** Stations that ever had notes, and that ever had a set-up: all others need no look. */
    notedStations: (): ReadonlySet<string> => new Set(noted.all()),
    setUpStations: (): ReadonlySet<string> => new Set(setUp.all()),
  };
}
