import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { Refused } from '../../../core/bridge/refused.ts';
import { RECORDS_ENDING } from '../../../core/files/records-file.ts';
import type { Archive } from '../archive/open.ts';
import { refused } from './service-parts.ts';
import { fileSha256, type TakeInOrder, type TakeInTold, takeIn } from './take-in.ts';

/** What became of one file of a folder. */
export type FolderFile = Readonly<{
  fileName: string;
  /** `own` was made by this very laptop; `before` was taken in earlier; `incomplete` is still being copied. */
  became: 'taken-in' | 'nothing-new' | 'before' | 'own' | 'incomplete' | 'refused';
  /** Why, where it was not taken in; null where it was. */
  why: string | null;
  added: number;
  sweeps: number;
  conflicts: number;
}>;

const none = { added: 0, sweeps: 0, conflicts: 0 } as const;

/** The records files of a folder, by name. */
export async function recordsFilesIn(folder: string): Promise<readonly string[]> {
  try {
    const names = await readdir(folder);
    return names.filter((name) => name.endsWith(RECORDS_ENDING) && !name.startsWith('.')).sort();
  } catch (fault) {
    const code = fault instanceof Error && 'code' in fault ? String(fault.code) : 'unknown';
    throw refused(
      'no-folder',
      folder,
      `the folder can't be read (${code}); plug the drive in, or name another`,
    );
  }
}

/**
 * Takes in every file of a folder that several laptops drop theirs into: each whole or not at all, whatever becomes of the
 * others. What was taken in before is told by its hash, whatever it is called now.
 * @param told  which file, of how many, and how far it is
 */
export async function takeInFolder(
  archive: Archive,
  folder: string,
  order: Pick<TakeInOrder, 'operator' | 'now' | 'calm'>,
  signal: AbortSignal,
  told: (file: string, place: number, count: number, ...far: Parameters<TakeInTold>) => void = () =>
    undefined,
): Promise<readonly FolderFile[]> {
  const names = await recordsFilesIn(folder);
  const found: FolderFile[] = [];
  for (const [i, fileName] of names.entries()) {
    const path = join(folder, fileName);
    signal.throwIfAborted();
    told(fileName, i + 1, names.length, 0, (await stat(path).catch(() => null))?.size ?? 0);
    found.push(
      await takeInOne(archive, { ...order, path, fileName }, signal, (done, total) =>
        told(fileName, i + 1, names.length, done, total),
      ),
    );
  }
  return found;
}

/** One file, told as one of a folder is. */
export async function takeInOne(
  archive: Archive,
  order: TakeInOrder & Readonly<{ fileName: string }>,
  signal: AbortSignal,
  told: TakeInTold,
): Promise<FolderFile> {
  const { fileName, path } = order;
  try {
    const before = archive.transfer.takenBefore(await fileSha256(path));
    if (before !== undefined) {
      const day = new Date(before.takenAtMs).toISOString().slice(0, 10);
      return { fileName, became: 'before', why: `taken in on ${day}`, ...none };
    }
    const { added, sweeps, conflicts, device } = await takeIn(archive, order, signal, told);
    const isOwn = device === archive.head().device && added + conflicts === 0;
    const became = isOwn ? 'own' : added + conflicts === 0 ? 'nothing-new' : 'taken-in';
    return { fileName, became, why: null, added, sweeps, conflicts };
  } catch (fault) {
    if (!(fault instanceof Refused)) throw fault;
    const { code, help } = fault.refusal;
    return { fileName, became: code === 'incomplete' ? 'incomplete' : 'refused', why: help, ...none };
  }
}
