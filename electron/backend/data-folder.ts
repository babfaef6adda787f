import { statfsSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import envPaths from 'env-paths';
import { done, type Result, refuse } from '../../core/result.ts';

export type FolderKind = 'local' | 'network' | 'synced';

/** Folders that a program in the background copies elsewhere, by the names that those programs give them. */
const SYNCED_PART =
  /^(onedrive( - .+)?|dropbox( \(.+\))?|google ?drive|icloud ?drive|icloud~.*|mobile documents|cloudstorage|nextcloud|owncloud|box sync|pcloud ?drive|syncthing|sync)$/i;

/**
 * File systems whose files lie on another machine, as Linux numbers them in `statfs`: NFS, SMB, SMB2, CIFS, NCP, AFS,
 * Coda, Ceph, 9P (among them a Windows drive seen from a Linux guest). FUSE isn't here: it carries local drives as well.
 */
const NETWORK_TYPES = new Set([
  0x6969, 0x517b, 0xfe534d42, 0xff534d42, 0x564c, 0x5346414f, 0x73757245, 0x00c36400, 0x01021997,
]);

/**
 * Whether a folder can hold an archive. SQLite's log needs memory that two programs share, which no network drive
 * gives, and a program that copies the archive while it is written makes a copy that is torn.
 * A network drive under a letter of Windows can't be told from a local one by its name.
 * @param path            absolute
 * @param platform        as Node names it
 * @param filesystemType  `statfs` type on Linux; null where it isn't known
 */
export function classifyFolder(
  path: string,
  platform: NodeJS.Platform,
  filesystemType: number | null,
): FolderKind {
  if (/^(\\\\|\/\/)[^\\/?.]/.test(path) || /^\\\\\?\\UNC\\/i.test(path)) return 'network';
  if (platform === 'linux' && filesystemType !== null && NETWORK_TYPES.has(filesystemType)) return 'network';
  if (path.split(/[\\/]/).some((part) => SYNCED_PART.test(part))) return 'synced';
  return 'local';
}

const why: Readonly<Record<Exclude<FolderKind, 'local'>, string>> = {
  network:
    'this folder is on the network, where a record is not safe when the line drops; choose a folder on a local disk with --data DIR and share sweeps as exported files',
  synced:
    'a program copies this folder elsewhere while it is written, which can tear the archive; choose a folder outside it with --data DIR and share sweeps as exported files',
};

/** The folder, or why it is no place for an archive. */
export function checkedFolder(
  path: string,
  platform: NodeJS.Platform,
  filesystemType: number | null,
): Result<string, 'network-folder' | 'synced-folder'> {
  const kind = classifyFolder(path, platform, filesystemType);
  return kind === 'local' ? done(path) : refuse(`${kind}-folder`, path, why[kind]);
}

/** The user's own data folder of this program. */
export const defaultDataFolder = (): string => envPaths('Tiltwright', { suffix: '' }).data;

/** The type of the file system that a folder is on, or will be on when it is made. */
function filesystemTypeOf(path: string): number | null {
  for (let at = path; ; at = dirname(at)) {
    try {
      return statfsSync(at).type;
    } catch {
      // Not made yet: its parent tells.
      if (dirname(at) === at) return null;
    }
  }
}

/** @param given  what `--data` named; without it the user's own data folder */
export function dataFolder(given: string | undefined): Result<string, 'network-folder' | 'synced-folder'> {
  // Windows keeps a share's name only while the path isn't resolved against a drive.
  const path = resolve(given ?? defaultDataFolder());
  return checkedFolder(path, process.platform, filesystemTypeOf(path));
}
