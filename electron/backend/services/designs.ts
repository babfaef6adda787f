import { type Port, Station } from '../../../core/files/station.ts';
import type { Archive } from '../archive/open.ts';
import type { DesignRow } from '../archive/stations.ts';
import { refused } from './service-parts.ts';

export type Design = Readonly<{ station: Station; revision: number; addedAtMs: number; json: string }>;

export type Designs = Readonly<{
  /** The newest revision. @throws Refused when no station has this id */
  newest(stationId: string): Design;
  at(stationId: string, revision: number): Design;
}>;

/** The design revisions as checked stations; each is read once, because a revision never changes. */
export function createDesigns(archive: Archive): Designs {
  const known = new Map<string, Design>();
  const keyOf = (stationId: string, revision: number) => JSON.stringify([stationId, revision]);
  const read = (row: DesignRow): Design => {
    const key = keyOf(row.stationId, row.revision);
    const found = known.get(key);
    if (found !== undefined) return found;
    const design: Design = {
      station: Station.parse(JSON.parse(row.design)),
      revision: row.revision,
      addedAtMs: row.addedAtMs,
      json: row.design,
    };
    known.set(key, design);
    return design;
  };
  return {
    newest(stationId) {
      const row = archive.stations.newestDesign(stationId);
      if (row === undefined)
        throw refused(
          'no-such-station',
          `station "${stationId}"`,
          'it is not in this archive; import its station file',
        );
      return read(row);
    },
    at(stationId, revision) {
      const found = known.get(keyOf(stationId, revision));
      if (found !== undefined) return found;
      const row = archive.stations.design(stationId, revision);
      if (row === undefined) throw new RangeError(`station ${stationId} has no revision ${revision}`);
      return read(row);
    },
  };
}

/** @throws  Refused that names the ports there are */
export function portOf(station: Station, portName: string): Port {
  const port = station.ports.find((candidate) => candidate.name === portName);
  if (port === undefined)
    throw refused(
      'no-such-port',
      `port "${portName}"`,
      `${station.name} has ${station.ports.map(({ name }) => `"${name}"`).join(', ')}`,
    );
  return port;
}
