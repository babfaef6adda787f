import { installedOf, type PluggedIn } from '../../../core/files/station.ts';
import type { Archive } from '../archive/open.ts';
import type { Design } from './designs.ts';

/**
 * What is plugged in now: what the newest design revision says, and every fitting made under it since, in the order in
 * which they were made. A fitting under an earlier revision doesn't count: the new revision says how the station is.
 */
export function pluggedInNow(archive: Archive, { station, revision }: Design): PluggedIn {
  const values = new Map(Object.entries(installedOf(station)));
  for (const { position, toValue } of archive.parts.fittedUnder(station.id, revision))
    values.set(position, toValue);
  return Object.fromEntries(values);
}
