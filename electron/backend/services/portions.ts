import { setImmediate as turn } from 'node:timers/promises';
import { ArchiveFault } from '../archive/archive-fault.ts';
import type { Archive } from '../archive/open.ts';

const PORTION_MS = 10;
/** So many are put on the disk at once. */
const SLICE = 250;

export type Portions<T> = Readonly<{
  /** Something that was worked out and is to be kept. */
  worked(one: T): void;
  /** After every few milliseconds of work gives way, so that a sweep that is being recorded does not wait; stops when asked to. */
  rest(): Promise<void>;
  /** Keeps what waits. */
  keep(): void;
}>;

/**
 * Long work over all stations in portions. What was worked out is kept in slices; what was worked out before something was recorded is
 * let go instead, because it may be old.
 * @param keepOne    writes one of them; called inside a transaction
 * @param keepSlice  called before each rest, for whoever else keeps something
 */
export function inPortions<T>(
  archive: Pick<Archive, 'stations' | 'write'>,
  parts: Readonly<{ keepOne: (one: T) => void; keepSlice: () => void; signal?: AbortSignal | undefined }>,
): Portions<T> {
  let waiting: T[] = [];
  let since = performance.now();
  const keep = (): void => {
    const rows = waiting;
    waiting = [];
    if (rows.length === 0) return;
    try {
      archive.write(() => {
        for (const row of rows) parts.keepOne(row);
      });
    } catch (fault) {
      // Without room on the disk it is worked out again the next time.
      if (!(fault instanceof ArchiveFault)) throw fault;
    }
  };
  return {
    worked: (one) => {
      waiting.push(one);
    },
    async rest() {
      if (performance.now() - since < PORTION_MS) return;
      parts.keepSlice();
      if (waiting.length >= SLICE) keep();
      const before = archive.stations.recorded();
      await turn();
      parts.signal?.throwIfAborted();
      if (archive.stations.recorded() !== before) waiting = [];
      since = performance.now();
    },
    keep,
  };
}
