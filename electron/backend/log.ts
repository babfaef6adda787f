import { renameSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { pino } from 'pino';

/** What the backend needs of a logger; pino's own fits. */
export interface Logger {
  info(facts: Readonly<Record<string, unknown>>, message: string): void;
  warn(facts: Readonly<Record<string, unknown>>, message: string): void;
  error(facts: Readonly<Record<string, unknown>>, message: string): void;
}

export const LOG_FILE = 'tiltwright.log';
const ROTATE_ABOVE_BYTES = 5_000_000;

const nothing = () => undefined;
/** For a folder that takes no log: whatever is wrong with it is told when the archive is opened there. */
const silent: Logger = { info: nothing, warn: nothing, error: nothing };

/**
 * A log in the data folder, never on standard output: that belongs to the verbs and to the ready line. The file of an
 * earlier run is put aside once when it has grown. A log that can't be written must not stop the work.
 */
export function createLog(dataDir: string): Logger {
  const path = join(dataDir, LOG_FILE);
  try {
    if (statSync(path).size > ROTATE_ABOVE_BYTES) renameSync(path, `${path}.1`);
  } catch {
    // There is no log yet, or it can't be moved: it is written where it stands.
  }
  try {
    const file = pino.destination({ dest: path, sync: true, mkdir: true });
    file.on('error', () => {
      // A full disk is told where it matters, at the sweep.
    });
    return pino({ base: null }, file);
  } catch {
    return silent;
  }
}
