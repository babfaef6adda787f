import { randomUUID } from 'node:crypto';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import packageJson from '../../package.json' with { type: 'json' };
import { ArchiveFault } from '../backend/archive/archive-fault.ts';
import { ARCHIVE_FILE, type Archive, openArchive } from '../backend/archive/open.ts';
import { dataFolder } from '../backend/data-folder.ts';
import type { Outcome } from './outcome.ts';

/** `command.option(...dataOption)` */
export const dataOption = [
  '--data <dir>',
  'the folder of the archive; without it, your own data folder',
] as const;

/**
 * Does something with the archive of a folder and closes it. A folder without one is told as such: nothing is made.
 * @param given  as `--data` gave it
 */
export async function withArchive(
  given: string | undefined,
  act: (archive: Archive) => Outcome | Promise<Outcome>,
): Promise<Outcome> {
  const folder = dataFolder(given);
  const path = join(folder, ARCHIVE_FILE);
  if (!existsSync(path)) return failed(path, 'no archive is here; name the folder of one with --data DIR');
  const now = new Date();
  try {
    const archive = openArchive({
      folder,
      session: {
        sessionId: randomUUID(),
        openedAtMs: now.getTime(),
        program: packageJson.version,
        host: 'memory',
        utcOffsetMin: -now.getTimezoneOffset(),
        timeZone: Intl.DateTimeFormat().resolvedOptions().timeZone,
      },
    });
    try {
      return await act(archive);
    } finally {
      archive.close();
    }
  } catch (fault) {
    if (fault instanceof ArchiveFault) return failed(fault.where, fault.help);
    throw fault;
  }
}

const failed = (where: string, help: string): Outcome => ({ kind: 'failed', where, help, answer: null });
