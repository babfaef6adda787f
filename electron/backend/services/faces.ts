import type { StationRow } from '../../../core/bridge/records.ts';
import type { Archive } from '../archive/open.ts';
import type { StationFace } from '../archive/stations.ts';
import { inPortions, type Portions } from './portions.ts';
import type { Standings } from './standing.ts';

/** What lists show of a station. */
export type Face = Readonly<{ row: StationRow; lastVisitMs: number | null }>;

export type FaceLook = Pick<Portions<unknown>, 'rest' | 'keep'> &
  Readonly<{
    /** As it was kept, or worked out anew; null for a station without a design, which no list has. */
    of(kept: StationFace): Face | null;
  }>;

/** One look at the faces of many stations: each is worked out once for each record that changes it, and kept. */
export function lookAtFaces(archive: Archive, standings: Standings, signal?: AbortSignal): FaceLook {
  const judgedBy = standings.judgedBy();
  const look = standings.look();
  const { worked, rest, keep } = inPortions<Readonly<{ stationId: string; face: string }>>(archive, {
    keepOne: ({ stationId, face }) => archive.stations.keepFace(stationId, face, judgedBy),
    keepSlice: look.keepSlice,
    signal,
  });
  return {
    of({ stationId, face, judgedBy: keptBy }) {
      // Written below, by this program's own schema.
      if (face !== null && keptBy === judgedBy) return JSON.parse(face) as Face;
      const facts = archive.stations.facts(stationId);
      if (facts === undefined) return null;
      const { openVisit, judgedSweepId, lastVisitMs, ...row } = facts;
      const standing = judgedSweepId === null ? null : look.of(judgedSweepId);
      const shown: Face = {
        row: { stationId, ...row, openVisit: openVisit === 1, standing },
        lastVisitMs,
      };
      worked({ stationId, face: JSON.stringify(shown) });
      return shown;
    },
    rest,
    keep() {
      look.keep();
      keep();
    },
  };
}
