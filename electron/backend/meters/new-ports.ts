import { realpath, stat } from 'node:fs/promises';

/** Knows which ports came, or lost their meter, a short while ago: such a port may not be ready yet. */
export type NewPorts = Readonly<{
  /** All ports that there are now. */
  listed(paths: readonly string[]): void;
  /** The meter at this port went by itself. */
  lost(path: string): void;
  /** How long ago, in ms, the port came or lost its meter; null when nobody knows, and then it is long ago. */
  ageMs(path: string): Promise<number | null>;
}>;

/** As Linux and macOS name them. Nobody plugs one in, so a new one is ready. */
const pseudoTerminal = /^\/dev\/(pts\/|ttys\d)/;

/**
 * When the system made a port's device file and gave it away, in ms of the day's clock; reading and writing leave that moment
 * alone. Null for a pseudo-terminal, and on Windows, which has no such file.
 */
export async function deviceCameAt(path: string): Promise<number | null> {
  if (process.platform === 'win32') return null;
  try {
    const device = await realpath(path);
    return pseudoTerminal.test(device) ? null : (await stat(device)).ctimeMs;
  } catch {
    return null;
  }
}

/** @param nowMs  the day's clock, as the system's files count */
export function createNewPorts(
  nowMs: () => number,
  cameAt: (path: string) => Promise<number | null> = deviceCameAt,
): NewPorts {
  /** Those of the newest list; null before the first: what it holds may have been there for days. */
  let known: ReadonlySet<string> | null = null;
  const cameMs = new Map<string, number>();
  return {
    listed(paths) {
      if (known !== null) for (const path of paths) if (!known.has(path)) cameMs.set(path, nowMs());
      known = new Set(paths);
    },
    lost(path) {
      cameMs.set(path, nowMs());
    },
    async ageMs(path) {
      const moments = [cameMs.get(path) ?? null, await cameAt(path)].filter((atMs) => atMs !== null);
      // A clock that was set back makes a moment to come; that port is not new either.
      const ages = moments.map((atMs) => nowMs() - atMs).filter((ageMs) => ageMs >= 0);
      return ages.length === 0 ? null : Math.min(...ages);
    },
  };
}
