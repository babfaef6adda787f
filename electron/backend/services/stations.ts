import type { Input, Output } from '../../../core/bridge/contract.ts';
import { Refused } from '../../../core/bridge/refused.ts';
import { readStation, type Station, withPluggedIn } from '../../../core/files/station.ts';
import { momentOf, orderedJson } from '../archive/quantities.ts';
import type { DesignRow } from '../archive/stations.ts';
import { fittingOf, proposalOf, summaryOf, visitOf } from './as-records.ts';
import type { Designs } from './designs.ts';
import { lookAtFaces } from './faces.ts';
import { fileNameOf } from './file-name.ts';
import { pluggedInNow } from './plugged-in.ts';
import type { Runs } from './runs.ts';
import { refused, type ServiceParts } from './service-parts.ts';
import type { Standings } from './standing.ts';
import { trimTurnOf } from './trims.ts';

export type Stations = Readonly<{
  /** Judges in small portions, so that a sweep that is being recorded meanwhile doesn't wait. */
  list(input: Input<'stations.list'>, signal: AbortSignal): Promise<Output<'stations.list'>>;
  /** Adds the station, or a revision when its design is another than the newest. */
  keep(station: Station, fileName: string, basedOn?: number): Output<'stations.import'>;
  import(input: Input<'stations.import'>): Output<'stations.import'>;
  open(input: Input<'stations.open'>): Output<'stations.open'>;
  export(input: Input<'stations.export'>): Output<'stations.export'>;
}>;

export function createStations(
  { archive, now }: ServiceParts,
  designs: Designs,
  standings: Standings,
  runs: Runs,
): Stations {
  const refuseStale = (station: Station, basedOn: number, newest: DesignRow | undefined): void => {
    if (basedOn === (newest?.revision ?? 0)) return;
    if (basedOn === 0 && newest !== undefined)
      throw refused(
        'not-new',
        `id "${station.id}"`,
        `${newest.name} has it already; choose another id, or open that station and change its design`,
      );
    throw refused(
      'changed-meanwhile',
      `design of ${station.name}`,
      'changed elsewhere in the meantime; look at it as it is now, then change it again',
    );
  };
  const keep = (station: Station, fileName: string, basedOn?: number): Output<'stations.import'> =>
    archive.write(() => {
      const design = orderedJson(station);
      const newest = archive.stations.newestDesign(station.id);
      if (basedOn !== undefined) refuseStale(station, basedOn, newest);
      if (newest?.design === design) return { stationId: station.id, revision: newest.revision };
      const addedAtMs = now().getTime();
      const revision = archive.stations.lastRevision(station.id) + 1;
      if (newest === undefined) archive.stations.add(station.id, addedAtMs);
      archive.stations.addRevision({
        stationId: station.id,
        revision,
        name: station.name,
        design,
        fileName,
        addedAtMs,
      });
      return { stationId: station.id, revision };
    });

  return {
    keep,
    async list({ atOnce, of }, signal) {
      const look = lookAtFaces(archive, standings, signal);
      const kept = archive.stations.list(of);
      if (atOnce !== true) return { stations: (await look.all(kept)).map(({ row }) => row) };
      const { rows, waiting } = await look.glance(kept);
      return { stations: [...rows], waiting: [...waiting] };
    },
    import({ fileName, text, basedOn }) {
      const read = readStation(text, fileName);
      if (!read.ok) throw new Refused(read);
      return keep(read.value, fileName, basedOn);
    },
    open({ stationId }) {
      const design = designs.newest(stationId);
      const open = archive.visits.openOf(stationId);
      return {
        station: design.station,
        revision: design.revision,
        revisedAt: momentOf(design.addedAtMs),
        pluggedIn: pluggedInNow(archive, design),
        openVisit: open === undefined ? null : visitOf(open),
        visits: archive.visits.ofStation(stationId).map(visitOf),
        sweeps: archive.sweeps.ofStation(stationId).map((row) => summaryOf(row, runs.unended(row.sweepId))),
        fittings: archive.parts.fittingsOf(stationId).map(fittingOf),
        proposals: archive.parts.proposalsOf(stationId).map(proposalOf),
        turns: archive.turns.ofStation(stationId).map(trimTurnOf),
      };
    },
    export({ stationId }) {
      const design = designs.newest(stationId);
      // What the file says is installed is what is plugged in now, or a proposal from it would be for another station.
      const station = withPluggedIn(design.station, pluggedInNow(archive, design));
      return {
        fileName: fileNameOf([station.name, 'station'], 'json'),
        text: `${JSON.stringify(station, null, 2)}\n`,
      };
    },
  };
}
