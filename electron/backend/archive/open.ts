import { statfsSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { ArchiveFault, archiveFaultOf, isDiskTrouble, isOutOfRoom, sqliteCodeOf } from './archive-fault.ts';
import { type Ballast, createBallast } from './ballast.ts';
import { createChain, type Head } from './chain.ts';
import { archiveCopies, type Copies } from './copies.ts';
import { assertSafeSqlite, makeDurable } from './durability.ts';
import { linkPending } from './link-pending.ts';
import { liveStatements } from './live.ts';
import { hasMarker, writeMarker } from './marker.ts';
import { meterLinkStatements } from './meter-links.ts';
import { steps as allSteps, migrate, type Step } from './migrate.ts';
import { partStatements } from './parts.ts';
import { qualityQueries } from './quality-queries.ts';
import { markRunning, unmarkRunning } from './running-mark.ts';
import { searchQueries } from './search-queries.ts';
import { createSession, type SessionFacts } from './session.ts';
import { setUpStatements } from './set-ups.ts';
import { settingsStatements } from './settings.ts';
import { stationStatements } from './stations.ts';
import { sweepStatements, type UnfinishedSweep } from './sweeps.ts';
import { type Transfer, transferStatements } from './transfer.ts';
import { turnStatements } from './turns.ts';
import { makeAndLock, notADatabase, refuseByHeader, refuseByLook, withWayOn } from './unfit-archive.ts';
import { type Verified, verifyArchive } from './verify.ts';
import { visitStatements } from './visits.ts';
import { watchStatements } from './watches.ts';

export const ARCHIVE_FILE = 'tiltwright.sqlite';

/** Why a sweep that a killed program left without an end is partial. */
export const ENDED_BY_RECOVERY =
  'the program ended in the middle of this sweep; everything it had read is here';
const LIVE_ENDED_BY_RECOVERY =
  'the program ended in the middle of this live reading; everything it had read is here';

export type Archive = Readonly<{
  path: string;
  /** The program's version. */
  program: string;
  stations: ReturnType<typeof stationStatements>;
  visits: ReturnType<typeof visitStatements>;
  sweeps: ReturnType<typeof sweepStatements>;
  parts: ReturnType<typeof partStatements>;
  turns: ReturnType<typeof turnStatements>;
  lives: ReturnType<typeof liveStatements>;
  setUps: ReturnType<typeof setUpStatements>;
  watches: ReturnType<typeof watchStatements>;
  settings: ReturnType<typeof settingsStatements>;
  meterLinks: ReturnType<typeof meterLinkStatements>;
  quality: ReturnType<typeof qualityQueries>;
  search: ReturnType<typeof searchQueries>;
  /** The newest record of this archive's own chain; `seq` 0 while it has none. */
  head(): Head;
  /** Holds every record against its chain; yields how many it has looked at. */
  verify(): Generator<number, Verified>;
  copies: Copies;
  transfer: Transfer;
  /** Sweeps that were found without an end at this opening. */
  recovered: readonly UnfinishedSweep[];
  ballast: Ballast;
  /** All of `work` or nothing, on the disk when this returns. Throws `ArchiveFault` when the disk takes no more. */
  write<T>(work: () => T): T;
  /** Many reads as of one moment, and faster than each by itself: SQLite locks once for all of them. */
  reading<T>(work: () => T): T;
  /** As `write`, for what was read and can't be read again: on a full disk the ballast goes, and it is tried once more. */
  keep<T>(work: () => T): T;
  freeBytes(): number;
  close(): void;
}>;

type OpenOptions = Readonly<{
  folder: string;
  session: SessionFacts;
  steps?: readonly Step[];
  ballast?: Ballast | undefined;
}>;

/**
 * Opens the archive of a folder, or makes it; the only writer there until it is closed. Sweeps and live
 * readings without an end are ended with what was read; a watch without one is the watch service's to go on with.
 * @throws  ArchiveFault, with the file as it was, when the folder is in use, or the file is no archive, is damaged,
 *          was emptied, is of a newer program, or can't be made safe
 */
export function openArchive(options: OpenOptions): Archive {
  const { folder, ballast = createBallast(folder) } = options;
  try {
    return openOnce(options, ballast);
  } catch (fault) {
    // Even an archive that is only read needs a little room beside it.
    const isFull = fault instanceof ArchiveFault && isOutOfRoom(fault.cause);
    if (isFull && ballast.free()) return openOnce(options, ballast);
    throw fault;
  }
}

function openOnce({ folder, session, steps = allSteps }: OpenOptions, ballast: Ballast): Archive {
  const path = join(folder, ARCHIVE_FILE);
  const unlock = makeAndLock(folder);
  let db: Database.Database | undefined;
  try {
    refuseByHeader(path, folder, steps.length);
    refuseByLook(path, folder, steps.length);
    db = new Database(path);
    assertSafeSqlite(db, path);
    makeDurable(db, path);
    migrate(db, steps);
    linkPending(db);
    // The tables of a new archive go into the file itself before the marker says that it is one.
    if (!hasMarker(folder)) db.pragma('wal_checkpoint(TRUNCATE)');
    writeMarker(folder);
    markRunning(folder);
    return archiveOver(db, session, folder, ballast, unlock);
  } catch (fault) {
    db?.close();
    unlock();
    const told = sqliteCodeOf(fault) === 'SQLITE_NOTADB' ? notADatabase(path, fault) : fault;
    throw withWayOn(archiveFaultOf(told, path), folder);
  }
}

function archiveOver(
  db: Database.Database,
  facts: SessionFacts,
  folder: string,
  ballast: Ballast,
  unlock: () => void,
): Archive {
  const chain = createChain(db);
  const session = createSession(db, facts, chain);
  const sweeps = sweepStatements(db, session, chain.documents);
  const write = <T>(work: () => T): T => {
    try {
      const answer = db.transaction(work).immediate();
      session.settle(true);
      return answer;
    } catch (fault) {
      session.settle(false);
      throw withWayOn(archiveFaultOf(fault, db.name), folder);
    }
  };
  const keep = <T>(work: () => T): T => {
    try {
      return write(work);
    } catch (fault) {
      const isFull = fault instanceof ArchiveFault && isOutOfRoom(fault.cause);
      if (isFull && ballast.free()) return write(work);
      throw fault;
    }
  };
  const lives = liveStatements(db, session);
  const recovered = sweeps.unfinished();
  const livesLeft = lives.unfinished();
  try {
    if (recovered.length + livesLeft.length > 0)
      keep(() => {
        for (const { seq, readingCount, lastKnownAtMs } of livesLeft)
          lives.end(seq, {
            reason: LIVE_ENDED_BY_RECOVERY,
            recovered: true,
            readingCount,
            endedAtMs: lastKnownAtMs,
          });
        for (const sweep of recovered)
          sweeps.end(sweep.seq, {
            state: 'partial',
            reason: ENDED_BY_RECOVERY,
            recovered: true,
            readingCount: sweep.readingCount,
            endedAtMs: sweep.lastKnownAtMs,
          });
      });
  } catch (fault) {
    // On a full disk the archive can still be read; the ends are written at the next opening.
    if (!(fault instanceof ArchiveFault && isDiskTrouble(fault.cause))) throw fault;
  }
  return {
    path: db.name,
    program: facts.program,
    stations: stationStatements(db, session),
    visits: visitStatements(db, session),
    sweeps,
    parts: partStatements(db, session),
    turns: turnStatements(db, session),
    lives,
    setUps: setUpStatements(db, session),
    watches: watchStatements(db, session),
    settings: settingsStatements(db, session),
    meterLinks: meterLinkStatements(db, session),
    quality: qualityQueries(db),
    search: searchQueries(db),
    head: chain.head,
    verify: () => verifyArchive(db, chain),
    copies: archiveCopies(db, chain),
    transfer: transferStatements(db, chain, session),
    recovered,
    ballast,
    write,
    reading: (work) => db.transaction(work).deferred(),
    keep,
    freeBytes() {
      const disk = statfsSync(folder);
      return disk.bavail * disk.bsize;
    },
    close() {
      if (db.open) {
        unmarkRunning(folder);
        db.close();
      }
      unlock();
    },
  };
}
