import { setImmediate as turn } from 'node:timers/promises';
import { ArchiveFault } from '../archive/archive-fault.ts';
import type { Archive } from '../archive/open.ts';

const PORTION_MS = 10;
/** So many are put on the disk at once: about as much work as a portion, and a transaction's wait for the disk is then a small part. */
const SLICE = 500;

/** Somebody else who keeps something of the same work, in the same transaction. */
export type KeepsToo = Readonly<{
  waiting(): number;
  /** Writes what waits, and forgets it. */
  put(): void;
}>;

export type Portions<T> = Readonly<{
  /** Something that was worked out and is to be kept. */
  worked(one: T): void;
  /** After every few milliseconds of work gives way, so that a sweep that is being recorded does not wait; stops when asked to. */
  rest(): Promise<void>;
  /** Keeps what waits, theirs too. */
  keep(): void;
}>;

/**
 * Long work over all stations in portions. What was worked out is kept in slices; what was worked out before something was recorded is
 * let go instead, because it may be old.
 * @param keepOne  writes one of them; called inside a transaction
 * @param too      who else keeps something; what they have is no older for a new record
 */
export function inPortions<T>(
  archive: Pick<Archive, 'stations' | 'write'>,
  parts: Readonly<{ keepOne: (one: T) => void; too: KeepsToo; signal?: AbortSignal | undefined }>,
): Portions<T> {
  const { keepOne, too, signal } = parts;
  let waiting: T[] = [];
  let since = performance.now();
  const keep = (): void => {
    const rows = waiting;
    waiting = [];
    keepIfRoom(archive, rows.length + too.waiting(), () => {
      for (const row of rows) keepOne(row);
      too.put();
    });
  };
  return {
    worked: (one) => {
      waiting.push(one);
    },
    async rest() {
      if (performance.now() - since < PORTION_MS) return;
      if (waiting.length + too.waiting() >= SLICE) keep();
      const before = archive.stations.recorded();
      await turn();
      signal?.throwIfAborted();
      if (archive.stations.recorded() !== before) waiting = [];
      since = performance.now();
    },
    keep,
  };
}

/** Writes what can be worked out again: without room on the disk it is, the next time. */
export function keepIfRoom(archive: Pick<Archive, 'write'>, count: number, put: () => void): void {
  if (count === 0) return;
  try {
    archive.write(put);
  } catch (fault) {
    if (!(fault instanceof ArchiveFault)) throw fault;
  }
}
