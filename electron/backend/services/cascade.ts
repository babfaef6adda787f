import type { CascadeLink } from '../../../core/bridge/cascade-calls.ts';
import type { Input, Output } from '../../../core/bridge/contract.ts';
import { forwardOutput } from '../../../core/noise/stage-level.ts';
import type { Archive } from '../archive/open.ts';
import { summaryOf } from './as-records.ts';
import type { Designs } from './designs.ts';
import { pluggedInNow } from './plugged-in.ts';
import { readingsOf } from './readings.ts';
import type { Runs } from './runs.ts';
import { refused } from './service-parts.ts';
import type { SettingsService } from './settings.ts';

export type CascadeService = Readonly<{ read(input: Input<'cascade.read'>): Output<'cascade.read'> }>;

/** Follows the notes from a station to the one that feeds it, and on to the source. */
export function createCascade(
  archive: Archive,
  designs: Designs,
  settings: Pick<SettingsService, 'readNotes'>,
  runs: Pick<Runs, 'unended'>,
): CascadeService {
  /** What was declared void, or has a correction, tells nothing any more. */
  const newestAt = (stationId: string, portName: string | undefined): CascadeLink['output'] => {
    const row = archive.sweeps
      .ofStation(stationId)
      .find(
        (sweep) =>
          sweep.portName === portName &&
          sweep.state === 'complete' &&
          sweep.voidedAtMs === null &&
          sweep.correctedBy === null,
      );
    return row === undefined
      ? null
      : { summary: summaryOf(row, runs.unended(row.sweepId)), readings: readingsOf(archive, row) };
  };
  const linkOf = (stationId: string): CascadeLink => {
    const design = designs.newest(stationId);
    const { station } = design;
    const output = forwardOutput(station);
    return {
      station,
      pluggedIn: pluggedInNow(archive, design),
      notes: settings.readNotes(stationId).notes,
      output: newestAt(stationId, output.ok ? output.value.name : undefined),
      input: newestAt(stationId, station.stageInput?.port),
    };
  };
  return {
    read({ stationId }) {
      const links: CascadeLink[] = [];
      const seen = new Set<string>();
      let at: string | undefined = stationId;
      while (at !== undefined) {
        if (seen.has(at))
          throw refused(
            'cascade-goes-round',
            `station "${at}"`,
            'it feeds itself over other stations; correct in their notes which station feeds which',
          );
        if (links.length > 0 && !archive.stations.has(at)) return { links: links.reverse(), unknownId: at };
        seen.add(at);
        const link = linkOf(at);
        links.push(link);
        at = link.notes?.cascade?.fedBy;
      }
      return { links: links.reverse(), unknownId: null };
    },
  };
}
