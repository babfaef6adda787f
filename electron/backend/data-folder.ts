import { existsSync, readFileSync, realpathSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import envPaths from 'env-paths';
import unsafe from './unsafe-folders.json' with { type: 'json' };

export type FolderKind = 'local' | 'network' | 'synced';

/** Folders that a program in the background copies elsewhere, by the names that those programs give them. */
const SYNCED_NAME = new RegExp(`^(${unsafe.syncedNames.join('|')})$`, 'i');
/** Types of file systems whose files lie on another machine, as Linux names them where it lists what is mounted. */
const NETWORK_TYPES = new Set(unsafe.networkTypes);

/** What can be told of a folder beside its path. */
export type FolderSigns = Readonly<{
  /** Linux: the type of the file system that it is on; null where it isn't known. */
  filesystemType: string | null;
  /** A file that a copying program keeps its state in lies in the folder or above it. */
  hasSyncedMark: boolean;
}>;

/**
 * What kind of folder it is. SQLite's log needs memory that is shared, which a network drive doesn't give, and a program
 * that copies the archive while it is written makes a copy that is torn.
 * @param path      absolute, with links and drive letters followed where that was possible
 * @param platform  as Node names it
 */
export function classifyFolder(
  path: string,
  platform: NodeJS.Platform,
  { filesystemType, hasSyncedMark }: FolderSigns,
): FolderKind {
  if (/^(\\\\|\/\/)[^\\/?.]/.test(path) || /^\\\\\?\\UNC\\/i.test(path)) return 'network';
  if (platform === 'linux' && filesystemType !== null && NETWORK_TYPES.has(filesystemType)) return 'network';
  if (hasSyncedMark || path.split(/[\\/]/).some((part) => SYNCED_NAME.test(part))) return 'synced';
  return 'local';
}

const why: Readonly<Record<Exclude<FolderKind, 'local'>, string>> = {
  network:
    'this folder is on the network, where the archive can be damaged when the line drops or two computers open it; start with --data and a folder on a local disk, and share records as exported files',
  synced:
    'a program copies this folder elsewhere while it is written, which can tear the archive; start with --data and a folder outside of it, and share records as exported files',
};

/**
 * The type of the file system that a path is on.
 * @param mounted  /proc/self/mountinfo, as proc(5) describes it
 */
export function mountedType(mounted: string, path: string): string | null {
  let found: Readonly<{ point: string; type: string }> | null = null;
  for (const line of mounted.split('\n')) {
    const [left = '', right = ''] = line.split(' - ');
    const point = left
      .split(' ')[4]
      ?.replace(/\\(\d{3})/g, (_, octal: string) => String.fromCharCode(Number.parseInt(octal, 8)));
    const type = right.split(' ')[0];
    if (point === undefined || type === undefined || type === '') continue;
    const isAbove = point === '/' || path === point || path.startsWith(`${point}/`);
    // Of two on one point the later lies over the earlier.
    if (isAbove && (found === null || point.length >= found.point.length)) found = { point, type };
  }
  return found?.type ?? null;
}

function typeOf(path: string): string | null {
  if (process.platform !== 'linux') return null;
  try {
    return mountedType(readFileSync('/proc/self/mountinfo', 'utf8'), path);
  } catch {
    return null;
  }
}

/** The folder, or the nearest one above it that is made, where links and mapped drives really lead. */
function reallyAt(path: string): string {
  for (let at = path; ; at = dirname(at)) {
    try {
      return realpathSync.native(at);
    } catch {
      if (dirname(at) === at) return path;
    }
  }
}

function hasSyncedMark(path: string): boolean {
  for (let at = path; ; at = dirname(at)) {
    if (unsafe.syncedMarks.some((mark) => existsSync(join(at, mark)))) return true;
    if (dirname(at) === at) return false;
  }
}

/** Why a folder is no good place for an archive, and what would help; null where it is one. A warning, no refusal. */
export function folderWarningOf(path: string): string | null {
  const kinds = [path, reallyAt(path)].map((at) =>
    classifyFolder(at, process.platform, { filesystemType: typeOf(at), hasSyncedMark: hasSyncedMark(at) }),
  );
  const kind = kinds.find((one) => one !== 'local');
  return kind === undefined ? null : why[kind];
}

/** The user's own data folder of this program. */
export const defaultDataFolder = (): string => envPaths('Tiltwright', { suffix: '' }).data;

/** @param given  what `--data` named; without it the user's own data folder */
export const dataFolder = (given: string | undefined): string => resolve(given ?? defaultDataFolder());
