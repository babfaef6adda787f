import { chmodSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { ArchiveFault } from '../../../electron/backend/archive/archive-fault.ts';
import { ARCHIVE_FILE } from '../../../electron/backend/archive/open.ts';
import { restoreArchive } from '../../../electron/backend/archive/restore.ts';
import { openTestArchive, throwAwayFolder } from '../../support/archive.ts';
import { asNobody } from '../../support/nobody.ts';

const faultOf = (work: () => unknown): ArchiveFault => {
  try {
    work();
  } catch (fault) {
    if (fault instanceof ArchiveFault) return fault;
    throw fault;
  }
  throw new Error('it was not refused');
};

// Windows keeps rights elsewhere; there the same faults come from SQLite.
it.skipIf(process.platform === 'win32')(
  'a folder that takes nothing is told as such, with what would help',
  () => {
    const outer = throwAwayFolder();
    chmodSync(outer, 0o755);
    const folder = join(outer, 'archive');
    mkdirSync(folder);
    chmodSync(folder, 0o555);
    const told = {
      code: 'read-only',
      help: expect.stringMatching(/^nothing can be written there; give .* --data/),
    };
    expect(faultOf(() => asNobody(() => openTestArchive(folder)))).toMatchObject({ ...told, where: folder });
    chmodSync(outer, 0o555);
    const within = join(outer, 'not-there-yet');
    expect(faultOf(() => asNobody(() => openTestArchive(within)))).toMatchObject({ ...told, where: within });
    chmodSync(outer, 0o755);
  },
);

it.skipIf(process.platform === 'win32')(
  'an archive there is taken over by copying it, as its message says',
  async () => {
    const folder = throwAwayFolder();
    const archive = openTestArchive(folder);
    archive.write(() => archive.stations.add('a', 1));
    archive.close();
    chmodSync(join(folder, ARCHIVE_FILE), 0o444);
    chmodSync(folder, 0o555);
    expect(faultOf(() => asNobody(() => openTestArchive(folder)))).toMatchObject({
      code: 'read-only',
      help: expect.stringContaining('archive restore --from FILE'),
    });
    const own = throwAwayFolder();
    await restoreArchive({
      folder: own,
      from: join(folder, ARCHIVE_FILE),
      nowMs: 0,
      signal: new AbortController().signal,
    });
    chmodSync(folder, 0o755);
    expect(openTestArchive(own).stations.has('a')).toBe(true);
  },
);
