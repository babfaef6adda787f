import { dirname } from 'node:path';
import type { BackupLine } from '../../../core/bridge/backup-calls.ts';
import { refusalLine, refuse } from '../../../core/result.ts';
import { ArchiveFault } from '../archive/archive-fault.ts';
import { backUp } from '../archive/backup.ts';
import { type Backup, backupFolderOf, lastVerified, listBackups, rotate } from '../archive/backup-list.ts';
import type { Archive } from '../archive/open.ts';
import { namedFolder } from './named-folder.ts';
import type { Runs } from './runs.ts';
import { refused, type ServiceParts } from './service-parts.ts';

/** How long after a verified backup the next one is due. */
const EVERY_MS = 24 * 3_600_000;
/** The start of the program belongs to whoever started it. */
const AFTER_START_MS = 60_000;
/** A sweep that runs goes first. */
const AGAIN_MS = 10 * 60_000;

/**
 * A backup, looked through; and only then those go that it makes needless.
 * @throws  ArchiveFault with the older ones as they were, or the signal's reason
 */
export async function makeBackup(
  archive: Pick<Archive, 'copies'>,
  work: Readonly<{
    folder: string;
    now: Date;
    program: string;
    signal: AbortSignal;
    told?: (what: 'copying' | 'checking', done: number, total: number) => void;
  }>,
): Promise<Readonly<{ made: Backup; gone: readonly string[] }>> {
  const { folder, now, program, signal, told = () => undefined } = work;
  const made = await backUp(archive.copies, { folder, madeAtMs: now.getTime(), program, signal, told });
  return { made, gone: rotate(folder, made, -now.getTimezoneOffset()) };
}

export type Backups = ReturnType<typeof createBackups>;

/** Backups by hand and once a day; never while a sweep runs, and one at a time. */
export function createBackups({ archive, now, log, emit }: ServiceParts, runs: Pick<Runs, 'running'>) {
  const own = backupFolderOf(dirname(archive.path));
  let working: Promise<unknown> | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const closing = new AbortController();

  const lineOf = ({ path, facts }: Backup): BackupLine => ({
    path,
    madeAt: facts.madeAt,
    records: facts.records,
    sweeps: facts.sweeps,
    broken: facts.broken,
    bytes: facts.bytes,
  });

  const make = async (folder: string | null, signal: AbortSignal): Promise<Backup> => {
    if (working !== null) throw refused('busy', 'backup', 'one is being made; wait for its end');
    if (runs.running() !== null)
      throw refused('busy', 'backup', 'a sweep is being read; back up when it has ended');
    let toldAtMs = 0;
    const work = makeBackup(archive, {
      folder: folder ?? own,
      now: now(),
      program: archive.program,
      signal: AbortSignal.any([signal, closing.signal]),
      told: (what, done, total) => {
        // A page needs to hear of it a few times a second.
        if (performance.now() - toldAtMs < 250) return;
        toldAtMs = performance.now();
        emit('backup.progress', { what, done, total });
      },
    });
    working = work;
    try {
      const { made, gone } = await work;
      log.info({ path: made.path, gone: gone.length, broken: made.facts.broken }, 'backup made');
      return made;
    } catch (fault) {
      if (fault instanceof ArchiveFault) throw refused(fault.code, fault.where, fault.help);
      throw fault;
    } finally {
      working = null;
    }
  };

  const isDue = (): boolean => {
    const last = lastVerified(listBackups(own));
    // An archive without a record is no loss.
    if (archive.head().seq === 0) return false;
    return last === undefined || now().getTime() - Date.parse(last.facts.madeAt) >= EVERY_MS;
  };
  const look = async (): Promise<void> => {
    try {
      if (runs.running() === null && working === null && isDue()) await make(null, closing.signal);
    } catch (fault) {
      if (!closing.signal.aborted) log.warn({ fault: String(fault) }, 'the daily backup was not made');
    } finally {
      plan(AGAIN_MS);
    }
  };
  const plan = (afterMs: number): void => {
    if (closing.signal.aborted) return;
    timer = setTimeout(() => void look(), afterMs);
    // Nothing waits for it at the end of the program.
    timer.unref();
  };
  plan(AFTER_START_MS);

  return {
    list: () => ({
      folder: own,
      archivePath: archive.path,
      archiveBytes: archive.copies.bytes(),
      backups: listBackups(own).map(lineOf),
    }),
    make: async (folder: string | null, signal: AbortSignal): Promise<BackupLine> =>
      lineOf(await make(folder === null ? null : namedFolder(folder), signal)),
    async close(): Promise<void> {
      clearTimeout(timer);
      closing.abort(new Error(refusalLine(refuse('closing', 'backup', 'the program is being closed'))));
      await working?.catch(() => undefined);
    },
  };
}
