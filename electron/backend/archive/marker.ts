import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

export const MARKER_FILE = 'tiltwright.marker';

/**
 * A small file beside the archive that says "an archive was made here". SQLite takes a file of no bytes for an empty
 * database without a word; with the marker beside it, such a file is known for what it is: records that were lost.
 */
export const hasMarker = (folder: string): boolean => existsSync(join(folder, MARKER_FILE));

export function writeMarker(folder: string): void {
  if (hasMarker(folder)) return;
  writeFileSync(
    join(folder, MARKER_FILE),
    'A Tiltwright archive was made in this folder. While this file is here, an empty or missing tiltwright.sqlite is\n' +
      'refused instead of being taken for a new one. To begin anew here on purpose, delete this file.\n',
  );
}
