import type { Archive } from '../archive/open.ts';
import { refused } from './service-parts.ts';

/** Nothing is begun on a disk that may be full before it ends. */
export const LEAST_FREE_BYTES = 200_000_000;

/** @throws  Refused when less than that is free where the archive lies */
export function refuseOnFullDisk(archive: Pick<Archive, 'path' | 'freeBytes'>): void {
  const freeBytes = archive.freeBytes();
  if (freeBytes < LEAST_FREE_BYTES)
    throw refused(
      'disk-full',
      archive.path,
      `only ${Math.floor(freeBytes / 1e6)} MB are free on this disk; free ${LEAST_FREE_BYTES / 1e6} MB, so that what is read can be kept`,
    );
}
