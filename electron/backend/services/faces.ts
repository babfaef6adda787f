import { type Standing, StationRow } from '../../../core/bridge/records.ts';
import type { Archive } from '../archive/open.ts';
import type { QualitySweepRow } from '../archive/quality-queries.ts';
import { momentOf } from '../archive/quantities.ts';
import type { StationFace, StationFacts } from '../archive/stations.ts';
import { inPortions } from './portions.ts';
import { type Standings, standingOf } from './standing.ts';

/** So many stations are read of the archive at once; they are worked out before anything else can be recorded. */
const TOGETHER = 20;
/** So many are judged even where an answer is wanted at once: it takes less than a wait that anybody feels. */
const JUDGED_AT_ONCE = 100;

/** What lists show of a station. */
export type Face = Readonly<{ row: StationRow; lastVisitMs: number | null }>;

/** Rows of a list; the standings of those that wait say what was read and when, but nothing of how it stands. */
export type Glance = Readonly<{ rows: readonly StationRow[]; waiting: readonly string[] }>;

export type FaceLook = Readonly<{
  /**
   * As each was kept, or worked out anew and kept, in portions; stations without a design are left out, as they are of every
   * list.
   */
  all(kept: readonly StationFace[]): Promise<readonly Face[]>;
  /** The same rows, but where many would have to be judged only a few are; the others wait. */
  glance(kept: readonly StationFace[]): Promise<Glance>;
}>;

/** What is known of a standing before it is judged. */
const unjudged = (read: Pick<Standing, 'sweepId' | 'at' | 'purpose' | 'state'>): Standing => ({
  sweepId: read.sweepId,
  at: read.at,
  purpose: read.purpose,
  state: read.state,
  verdict: null,
  headline: '',
  worstDb: null,
  worstMhz: null,
});

/** One look at the faces of many stations: each is worked out once for each record that changes it, and kept. */
export function lookAtFaces(archive: Archive, standings: Standings, signal?: AbortSignal): FaceLook {
  const judgedBy = standings.judgedBy();
  const look = standings.look();
  const { worked, rest, keep } = inPortions<Readonly<{ stationId: string; face: string }>>(archive, {
    keepOne: ({ stationId, face }) => archive.stations.keepFace(stationId, face, judgedBy),
    too: look,
    signal,
  });
  const isKept = ({ face, judgedBy: keptBy }: StationFace): boolean => face !== null && keptBy === judgedBy;

  /** Of those stations that have a design, with how their newest sweeps stand. */
  const facesOf = (
    stationIds: readonly string[],
    standing: (sweep: QualitySweepRow) => Standing,
  ): readonly Face[] => {
    if (stationIds.length === 0) return [];
    const facts = archive.stations.factsOf(stationIds);
    const sweepIds = facts.flatMap(({ judgedSweepId }) => judgedSweepId ?? []);
    const sweeps = new Map(archive.quality.sweepsOfIds(sweepIds).map((sweep) => [sweep.sweepId, sweep]));
    return facts.map(
      ({ openVisit, judgedSweepId, lastVisitMs, outOfService, ...row }: StationFacts): Face => {
        const sweep = judgedSweepId === null ? undefined : sweeps.get(judgedSweepId);
        return {
          row: {
            ...row,
            openVisit: openVisit === 1,
            standing: sweep === undefined ? null : standing(sweep),
            ...(outOfService === null ? {} : { outOfService }),
          },
          lastVisitMs,
        };
      },
    );
  };
  const judgedAnew = (stationIds: readonly string[]): readonly Face[] => {
    const faces = facesOf(stationIds, (sweep) => standingOf(sweep, look));
    for (const face of faces) worked({ stationId: face.row.stationId, face: JSON.stringify(face) });
    return faces;
  };
  /** As it was kept by what held before, or read anew: what an older program kept may be of another form. */
  const unjudgedRows = (kept: readonly StationFace[]): readonly StationRow[] => {
    const older = new Map<string, StationRow>();
    for (const { stationId, face } of kept) {
      const read = face === null ? null : StationRow.safeParse((JSON.parse(face) as Partial<Face>).row);
      if (read?.success === true) older.set(stationId, read.data);
    }
    const unknown = kept.flatMap(({ stationId }) => (older.has(stationId) ? [] : [stationId]));
    const anew = facesOf(unknown, (sweep) => unjudged({ ...sweep, at: momentOf(sweep.startedAtMs) }));
    const rows = [...older.values(), ...anew.map(({ row }) => row)];
    return rows.map((row) => (row.standing === null ? row : { ...row, standing: unjudged(row.standing) }));
  };

  /** In the order of the list; `missing` makes those that were not kept. */
  const walk = async <T>(
    kept: readonly StationFace[],
    ofKept: (face: Face) => T,
    missing: (some: readonly StationFace[]) => ReadonlyMap<string, T>,
  ): Promise<readonly T[]> => {
    const all: T[] = [];
    for (let from = 0; from < kept.length; from += TOGETHER) {
      const some = kept.slice(from, from + TOGETHER);
      const unkept = some.filter((one) => !isKept(one));
      const anew = archive.reading(() => missing(unkept));
      for (const one of some) {
        // Written above, by this program's own schema.
        const found = isKept(one) ? ofKept(JSON.parse(one.face ?? '') as Face) : anew.get(one.stationId);
        if (found !== undefined) all.push(found);
      }
      await rest();
    }
    keep();
    return all;
  };

  return {
    all: (kept) =>
      walk(
        kept,
        (face) => face,
        (some) =>
          new Map(
            judgedAnew(some.map(({ stationId }) => stationId)).map((face) => [face.row.stationId, face]),
          ),
      ),
    async glance(kept) {
      const waiting: string[] = [];
      let left = JUDGED_AT_ONCE;
      const rows = await walk(
        kept,
        ({ row }) => row,
        (some) => {
          const now = some.slice(0, left);
          left -= now.length;
          const later = unjudgedRows(some.slice(now.length));
          // Nothing is to be judged at a station that was never swept.
          waiting.push(...later.flatMap(({ stationId, standing }) => (standing === null ? [] : [stationId])));
          const judged = judgedAnew(now.map(({ stationId }) => stationId)).map(({ row }) => row);
          return new Map([...judged, ...later].map((row) => [row.stationId, row]));
        },
      );
      return { rows, waiting };
    },
  };
}
