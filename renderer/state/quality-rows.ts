import type { QualityStation, QualityTrend } from '../../core/bridge/quality-calls.ts';
import { type AttentionList, listsOf } from '../../core/drift/attention.ts';
import { OUT_OF_SERVICE } from '../parts/service-words.ts';
import type { Records, RecordsSort, SortBy } from './quality-slice.ts';

/** A line of the table: a station, what its history says where it is known, and the lists that it is on. */
export type RecordRow = Readonly<{
  station: QualityStation;
  /** Null while its history has not been looked through. */
  trend: QualityTrend | null;
  lists: readonly AttentionList[];
  /** Its place when all are in the order of their names. */
  nameRank: number;
}>;

export const listWords: Readonly<Record<AttentionList, string>> = {
  due: 'Due',
  drifting: 'Drifting',
  undecided: 'Undecided',
  'never-left': 'Never left as designed',
};

const byName = new Intl.Collator('en', { numeric: true });
/** Names are compared once for a list of stations, and not again whenever trends come to it. */
const ranked = new WeakMap<readonly QualityStation[], readonly number[]>();

function nameRanks(stations: readonly QualityStation[]): readonly number[] {
  const known = ranked.get(stations);
  if (known !== undefined) return known;
  const places = stations.map(({ name }, place) => ({ name, place }));
  places.sort((a, b) => byName.compare(a.name, b.name));
  const ranks = stations.map(() => 0);
  places.forEach(({ place }, rank) => {
    ranks[place] = rank;
  });
  ranked.set(stations, ranks);
  return ranks;
}

/** Every station with the lists that it is on. */
export function recordRows(
  { stations, trends }: Pick<Records, 'stations' | 'trends'>,
  nowMs: number,
  everyMonths: number,
): readonly RecordRow[] {
  const ranks = nameRanks(stations);
  return stations.map((station, place) => {
    const trend = trends[station.stationId] ?? null;
    const facts = {
      lastVisitMs: station.lastVisitAt === null ? null : Date.parse(station.lastVisitAt),
      openVisit: station.openVisit,
      verdict: station.standing?.verdict ?? null,
      sweepCount: station.sweepCount,
      leftAsDesigned: trend?.leftAsDesigned ?? null,
      drift: trend?.drift?.state ?? null,
      outOfService: station.outOfService !== undefined,
    };
    return { station, trend, lists: listsOf(facts, nowMs, everyMonths), nameRank: ranks[place] ?? 0 };
  });
}

/** How many stations each list has. */
export function listCounts(rows: readonly RecordRow[]): Readonly<Record<AttentionList, number>> {
  const counts: Record<AttentionList, number> = { due: 0, drifting: 0, undecided: 0, 'never-left': 0 };
  for (const { lists } of rows) for (const list of lists) counts[list]++;
  return counts;
}

/** Trouble first: failed, undecided, not judged, passed. */
const standingRank = ({ station }: RecordRow): number => {
  switch (station.standing?.verdict) {
    case 'fail':
      return 0;
    case 'undecided':
      return 1;
    case 'pass':
      return 3;
    case null:
    case undefined:
      return 2;
  }
};
const states = ['drifting', 'unsure', 'steady', 'too-few'] as const;
const trendRank = ({ trend }: RecordRow): number => {
  const drift = trend?.drift;
  if (drift === null || drift === undefined) return states.length * 1000;
  // Within one state the faster goes first.
  return states.indexOf(drift.state) * 1000 - Math.min(999, Math.abs(drift.perYearDb ?? 0));
};

/** What a column is sorted by; null: unknown, and always last. */
const keys: Readonly<Record<Exclude<SortBy, 'name'>, (row: RecordRow) => number | null>> = {
  standing: standingRank,
  worst: ({ station }) =>
    station.standing?.worstDb === undefined || station.standing.worstDb === null
      ? null
      : Math.abs(station.standing.worstDb),
  reserve: ({ station }) => station.reserve?.leftDb ?? null,
  visit: ({ station }) => (station.lastVisitAt === null ? 0 : Date.parse(station.lastVisitAt)),
  trend: trendRank,
};

/** The rows that are asked for, in the order that is asked for; equals by name. */
export function shownRows(
  rows: readonly RecordRow[],
  list: AttentionList | 'all',
  text: string,
  sort: RecordsSort,
): readonly RecordRow[] {
  const words = text
    .trim()
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== '');
  const kept = rows.filter(({ station, lists }) => {
    if (list !== 'all' && !lists.includes(list)) return false;
    const said = station.outOfService === undefined ? station.standing?.headline : OUT_OF_SERVICE;
    const within = `${station.name} ${station.stationId} ${said ?? ''}`.toLowerCase();
    return words.every((word) => within.includes(word));
  });
  // Where nobody is sent stands below all others, however they are sorted.
  const away = ({ station }: RecordRow): number => (station.outOfService === undefined ? 0 : 1);
  const names = (a: RecordRow, b: RecordRow) => a.nameRank - b.nameRank;
  const turn = sort.isDown ? -1 : 1;
  if (sort.by === 'name') return kept.sort((a, b) => away(a) - away(b) || turn * names(a, b));
  const keyOf = keys[sort.by];
  return kept
    .map((row) => ({ row, key: keyOf(row) }))
    .sort((a, b) => {
      const apart = away(a.row) - away(b.row);
      if (apart !== 0) return apart;
      if (a.key === null || b.key === null)
        return a.key === b.key ? names(a.row, b.row) : a.key === null ? 1 : -1;
      return a.key === b.key ? names(a.row, b.row) : turn * (a.key - b.key);
    })
    .map(({ row }) => row);
}
