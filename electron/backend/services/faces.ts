import type { StationRow } from '../../../core/bridge/records.ts';
import type { Archive } from '../archive/open.ts';
import type { StationFace } from '../archive/stations.ts';
import { inPortions } from './portions.ts';
import { type Standings, standingOf } from './standing.ts';

/** So many stations are read of the archive at once; they are worked out before anything else can be recorded. */
const TOGETHER = 20;

/** What lists show of a station. */
export type Face = Readonly<{ row: StationRow; lastVisitMs: number | null }>;

export type FaceLook = Readonly<{
  /**
   * As each was kept, or worked out anew and kept, in portions; stations without a design are left out, as they are of every
   * list.
   */
  all(kept: readonly StationFace[]): Promise<readonly Face[]>;
}>;

/** One look at the faces of many stations: each is worked out once for each record that changes it, and kept. */
export function lookAtFaces(archive: Archive, standings: Standings, signal?: AbortSignal): FaceLook {
  const judgedBy = standings.judgedBy();
  const look = standings.look();
  const { worked, rest, keep } = inPortions<Readonly<{ stationId: string; face: string }>>(archive, {
    keepOne: ({ stationId, face }) => archive.stations.keepFace(stationId, face, judgedBy),
    too: look,
    signal,
  });

  const workedOut = (stationIds: readonly string[]): ReadonlyMap<string, Face> => {
    const facts = archive.stations.factsOf(stationIds);
    const sweepIds = facts.flatMap(({ judgedSweepId }) => judgedSweepId ?? []);
    const sweeps = new Map(archive.quality.sweepsOfIds(sweepIds).map((row) => [row.sweepId, row]));
    return new Map(
      facts.map(({ openVisit, judgedSweepId, lastVisitMs, ...row }) => {
        const sweep = judgedSweepId === null ? undefined : sweeps.get(judgedSweepId);
        const standing = sweep === undefined ? null : standingOf(sweep, look);
        const face: Face = { row: { ...row, openVisit: openVisit === 1, standing }, lastVisitMs };
        worked({ stationId: row.stationId, face: JSON.stringify(face) });
        return [row.stationId, face];
      }),
    );
  };

  return {
    async all(kept) {
      const faces: Face[] = [];
      for (let from = 0; from < kept.length; from += TOGETHER) {
        const some = kept.slice(from, from + TOGETHER);
        const isKept = ({ face, judgedBy: keptBy }: StationFace) => face !== null && keptBy === judgedBy;
        const missing = some.filter((one) => !isKept(one));
        const anew = missing.length === 0 ? null : workedOut(missing.map(({ stationId }) => stationId));
        for (const one of some) {
          // Written above, by this program's own schema.
          const face = isKept(one) ? (JSON.parse(one.face ?? '') as Face) : anew?.get(one.stationId);
          if (face !== undefined) faces.push(face);
        }
        await rest();
      }
      keep();
      return faces;
    },
  };
}
