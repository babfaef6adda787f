import { type Design as DesignLine, type Port, Station } from '../../../core/files/station.ts';
import type { Archive } from '../archive/open.ts';
import type { DesignRow } from '../archive/stations.ts';
import { refused } from './service-parts.ts';

export type Design = Readonly<{ station: Station; revision: number; addedAtMs: number; json: string }>;

export type Designs = Readonly<{
  /** The newest revision. @throws Refused when no station has this id */
  newest(stationId: string): Design;
  at(stationId: string, revision: number): Design;
  /**
   * One port's design line alone, for whoever judges thousands of sweeps: the whole station takes ten times as long to check.
   * @returns  undefined at a port without one. @throws Refused that names the ports there are
   */
  lineAt(stationId: string, revision: number, portName: string): DesignLine | undefined;
}>;

type Ports = readonly Readonly<{ name: string; design?: unknown }>[];
const LineOfPort = Station.shape.ports.element.shape.design;

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
  const rowAt = (stationId: string, revision: number): DesignRow => {
    const row = archive.stations.design(stationId, revision);
    if (row === undefined) throw new RangeError(`station ${stationId} has no revision ${revision}`);
    return row;
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
    at: (stationId, revision) => known.get(keyOf(stationId, revision)) ?? read(rowAt(stationId, revision)),
    lineAt(stationId, revision, portName) {
      const found = known.get(keyOf(stationId, revision));
      if (found !== undefined) return portOf(found.station, portName).design;
      const row = rowAt(stationId, revision);
      // Checked as a whole when it was taken in.
      const { ports } = JSON.parse(row.design) as Readonly<{ ports: Ports }>;
      return LineOfPort.parse(namedPort(ports, row.name, portName).design);
    },
  };
}

/** @throws  Refused that names the ports there are */
export const portOf = (station: Station, portName: string): Port =>
  namedPort(station.ports, station.name, portName);

function namedPort<P extends Readonly<{ name: string }>>(
  ports: readonly P[],
  stationName: string,
  portName: string,
): P {
  const port = ports.find((candidate) => candidate.name === portName);
  if (port === undefined)
    throw refused(
      'no-such-port',
      `port "${portName}"`,
      `${stationName} has ${ports.map(({ name }) => `"${name}"`).join(', ')}`,
    );
  return port;
}
