/** Works on a disk of its own that is filled to the brim: `full-disk-child.ts FOLDER`. Says what came of it as JSON. */
import { closeSync, openSync, rmSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { ArchiveFault } from '../../../electron/backend/archive/archive-fault.ts';
import { openArchive } from '../../../electron/backend/archive/open.ts';

const folder = process.argv[2] ?? '';
const filler = join(folder, 'filler');
const archiveFolder = join(folder, 'archive');
const session = { openedAtMs: 0, program: '0', host: 'memory', utcOffsetMin: 0, timeZone: 'UTC' } as const;

/** Until not one byte more goes onto the disk. */
function fill(): void {
  const file = openSync(filler, 'a');
  for (let bytes = 1_000_000; bytes >= 1; ) {
    try {
      if (writeSync(file, Buffer.alloc(bytes, 1)) < bytes) bytes = Math.floor(bytes / 2);
    } catch {
      bytes = Math.floor(bytes / 2);
    }
  }
  closeSync(file);
}

const open = () =>
  openArchive({ folder: archiveFolder, session: { ...session, sessionId: crypto.randomUUID() } });
let archive = open();
let acknowledged = 0;
const add = (how: 'write' | 'keep'): string => {
  try {
    archive[how](() => {
      archive.stations.add(`s${acknowledged}`, acknowledged);
      archive.stations.addRevision({
        ...{ stationId: `s${acknowledged}`, revision: 1, name: 'n', fileName: 'f', addedAtMs: 0 },
        design: JSON.stringify({ a: 'x'.repeat(100_000) }),
      });
    });
    acknowledged += 1;
    return 'kept';
  } catch (fault) {
    if (!(fault instanceof ArchiveFault)) throw fault;
    return `${fault.code}: ${fault.help}`;
  }
};
const untilRefused = (how: 'write' | 'keep'): string => {
  for (;;) {
    const said = add(how);
    if (said !== 'kept') return said;
  }
};

const madeIt = await archive.ballast.make();
fill();
const written = untilRefused('write');
const afterWrite = { count: acknowledged, ballast: archive.ballast.isThere() };
const kept = untilRefused('keep');
const afterKeep = { count: acknowledged, ballast: archive.ballast.isThere() };

// Room again, the ballast too; then the disk is full before the program starts.
rmSync(filler);
const again = add('keep');
const madeAgain = await archive.ballast.make();
archive.close();
fill();
archive = open();
const found = archive.stations.list().length;
const last = add('keep');
archive.close();
rmSync(filler);
archive = open();
const atTheEnd = archive.stations.list().length;
archive.close();
process.stdout.write(
  JSON.stringify({
    ...{ madeIt, written, afterWrite, kept, afterKeep, again, madeAgain },
    ...{ found, last, atTheEnd, acknowledged },
  }),
);
