import { installedOf, type PluggedIn } from '../../../core/files/station.ts';
import type { Archive } from '../archive/open.ts';
import type { Design } from './designs.ts';

/**
 * What is plugged in now: what the newest design revision says, and every fitting made since, in the order in which they
 * were made. A fitting of before doesn't count: the new revision says how the station is.
 */
export function pluggedInNow(archive: Archive, { station }: Design): PluggedIn {
  const values = new Map(Object.entries(installedOf(station)));
  for (const { position, toValue } of archive.parts.fittedSinceDesign(station.id))
    values.set(position, toValue);
  return Object.fromEntries(values);
}
