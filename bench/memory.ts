import { readdirSync } from 'node:fs';
import { getHeapSpaceStatistics } from 'node:v8';

/** What a process holds, in MB, after a collection where one may be asked for. */
export type Memory = Readonly<{
  residentMb: number;
  /** What V8 has taken from the system for JavaScript's objects; it keeps what it once needed. */
  reservedMb: number;
  /** The part of it for young objects. V8 doubles it under load up to a limit of its own, and does not give it back. */
  nurseryMb: number;
  usedMb: number;
  /** Buffers and native objects that belong to JavaScript's. */
  externalMb: number;
  /**
   * Everything else: the program itself, native libraries, threads. A leak below JavaScript shows here. V8 keeps pages that it
   * let go of for a while (the sum stays, what is reserved falls by 130 MB), so the most that it ever reserved is taken off.
   */
  restMb: number;
  /** Files, ports and terminals that are open; null where the system does not tell. */
  openFiles: number | null;
  handles: number;
}>;

const MB = 1e6;

function openFiles(): number | null {
  try {
    return readdirSync('/dev/fd').length;
  } catch {
    return null;
  }
}

let mostReserved = 0;

export function memoryNow(): Memory {
  mostReserved = Math.max(mostReserved, process.memoryUsage().heapTotal);
  globalThis.gc?.();
  const { rss, heapTotal, heapUsed, external } = process.memoryUsage();
  const young = getHeapSpaceStatistics().filter(({ space_name }) => space_name.startsWith('new_'));
  return {
    residentMb: rss / MB,
    reservedMb: heapTotal / MB,
    nurseryMb: young.reduce((sum, { physical_space_size }) => sum + physical_space_size, 0) / MB,
    usedMb: heapUsed / MB,
    externalMb: external / MB,
    restMb: (rss - mostReserved) / MB,
    openFiles: openFiles(),
    handles: process.getActiveResourcesInfo().length,
  };
}

/** One line for a person: the sum first, then what it is made of. */
export const memoryWords = (memory: Memory): string => {
  const mb = (amount: number) => amount.toFixed(1);
  return `resident ${mb(memory.residentMb)} MB; heap reserved ${mb(memory.reservedMb)} (young ${mb(memory.nurseryMb)}, used ${mb(memory.usedMb)}), rest ${mb(memory.restMb)}, external ${mb(memory.externalMb)}, open files ${memory.openFiles ?? 'unknown'}, handles ${memory.handles}`;
};

/** Above this a difference is more than noise of pools and compilers. */
const SLACK_MB = 20;

/** What grew between two moments that should be alike; nothing, where memory is flat. */
export function grown(before: Memory, after: Memory): readonly string[] {
  const found: string[] = [];
  if (after.usedMb > before.usedMb + SLACK_MB) found.push('the heap in use');
  if (after.externalMb > before.externalMb + SLACK_MB) found.push('buffers');
  if (after.restMb > before.restMb + SLACK_MB) found.push('memory below JavaScript');
  if ((after.openFiles ?? 0) > (before.openFiles ?? 0) + 3) found.push('open files');
  if (after.handles > before.handles + 3) found.push('handles');
  return found;
}
