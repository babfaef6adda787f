import { randomBytes } from 'node:crypto';
import { rmSync, statSync } from 'node:fs';
import { open, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';

export const BALLAST_FILE = 'tiltwright.ballast';
/** A sweep of 158 channels with all that goes over its wire takes less than a hundredth of it. */
export const BALLAST_BYTES = 20_000_000;
const PORTION_BYTES = 1_000_000;

/** Room on the disk that is given back in need. */
export type Ballast = Readonly<{
  isThere(): boolean;
  /** Makes it where it isn't. False where it couldn't be made; nothing is left of it then, and nobody is told. */
  make(signal?: AbortSignal): Promise<boolean>;
  /** Gives its room back to the disk. False when there was none to give. */
  free(): boolean;
  /** Called after each time that its room was given back. */
  whenFreed(listener: () => void): void;
}>;

/**
 * A file beside the archive that holds nothing but room: when the disk is full, it goes, so that a sweep that is being
 * read can still be kept to its end. Its bytes are written and random, because a file system may keep a hole or zeros
 * without giving them any room.
 */
export function createBallast(folder: string): Ballast {
  const path = join(folder, BALLAST_FILE);
  const partial = `${path}.partial`;
  const listeners: (() => void)[] = [];
  const isThere = () => (statSync(path, { throwIfNoEntry: false })?.size ?? 0) >= BALLAST_BYTES;
  return {
    isThere,
    async make(signal) {
      if (isThere()) return true;
      try {
        const file = await open(partial, 'w');
        try {
          for (let written = 0; written < BALLAST_BYTES; written += PORTION_BYTES) {
            signal?.throwIfAborted();
            await file.writeFile(randomBytes(PORTION_BYTES));
          }
          await file.sync();
        } finally {
          await file.close();
        }
        await rename(partial, path);
        return true;
      } catch {
        await rm(partial, { force: true }).catch(() => undefined);
        return false;
      }
    },
    free() {
      const wasThere = isThere();
      try {
        for (const left of [path, partial]) rmSync(left, { force: true });
      } catch {
        return false;
      }
      if (wasThere) for (const listener of listeners) listener();
      return wasThere;
    },
    whenFreed(listener) {
      listeners.push(listener);
    },
  };
}
