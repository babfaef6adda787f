import { dirname } from 'node:path';
import type { Care } from '../../../core/bridge/care-calls.ts';
import { ArchiveFault } from '../archive/archive-fault.ts';
import { BALLAST_BYTES } from '../archive/ballast.ts';
import { folderWarningOf } from '../data-folder.ts';
import type { Designs } from './designs.ts';
import { LEAST_FREE_BYTES } from './disk-room.ts';
import type { Runs } from './runs.ts';
import { refused, type ServiceParts } from './service-parts.ts';

const NEEDED_BYTES = LEAST_FREE_BYTES + BALLAST_BYTES;
const LOOK_MS = 30_000;

export type CareService = Readonly<{
  read(): Care;
  keep(): Care;
  /** From now on the ballast is made where the disk has room, and what is held is tried again by itself. */
  begin(lookMs?: number): void;
  close(): Promise<void>;
}>;

/** Watches over the room on the archive's disk, and over the sweeps that it refused. */
export function createCare(
  { archive, emit, log }: ServiceParts,
  designs: Designs,
  runs: Pick<Runs, 'held' | 'whenHeld' | 'settleHeld' | 'running'>,
): CareService {
  const { ballast } = archive;
  const folderWarning = folderWarningOf(dirname(archive.path));
  let givenUp = false;
  let timer: ReturnType<typeof setInterval> | undefined;
  let looking: Promise<void> | null = null;
  const closing = new AbortController();

  const read = (): Care => ({
    held: runs.held().map(({ sweepId, stationId, onDisk, rows, why }) => {
      const row = archive.sweeps.byId(sweepId);
      const { station } = designs.newest(stationId);
      return {
        ...{ sweepId, stationId, stationName: station.name, portName: row?.portName ?? '?' },
        ...{ onDisk, inMemory: rows.length, why },
      };
    }),
    ballast: ballast.isThere() ? 'there' : givenUp ? 'given-up' : 'none',
    ballastBytes: BALLAST_BYTES,
    freeBytes: archive.freeBytes(),
    neededBytes: NEEDED_BYTES,
    folderWarning,
  });
  const tell = (): void => emit('care.changed', read());

  ballast.whenFreed(() => {
    givenUp = true;
    log.warn({ path: archive.path }, 'the disk is full; the room that was kept for this is given up');
    // What needed the room is written first.
    setImmediate(tell);
  });
  runs.whenHeld(tell);

  const look = async (): Promise<void> => {
    try {
      if (runs.held().length > 0) runs.settleHeld();
    } catch {
      // Still full; the page says so and has a button.
    }
    if (ballast.isThere() || runs.running() !== null || archive.freeBytes() < NEEDED_BYTES) return;
    if (!(await ballast.make(closing.signal)) || !givenUp) return;
    givenUp = false;
    tell();
  };
  const lookOnce = (): void => {
    looking ??= look()
      .catch((fault: unknown) => log.warn({ fault: String(fault) }, 'the disk could not be looked at'))
      .finally(() => {
        looking = null;
      });
  };

  return {
    read,
    keep() {
      try {
        runs.settleHeld();
      } catch (fault) {
        if (fault instanceof ArchiveFault) throw refused(fault.code, fault.where, fault.help);
        throw fault;
      }
      // There may be room for the ballast as well.
      if (timer !== undefined) lookOnce();
      return read();
    },
    begin(lookMs = LOOK_MS) {
      lookOnce();
      timer = setInterval(lookOnce, lookMs);
      // Nothing waits for it at the end of the program.
      timer.unref();
    },
    async close() {
      clearInterval(timer);
      closing.abort();
      await looking;
    },
  };
}
