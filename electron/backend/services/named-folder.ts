import { statSync } from 'node:fs';
import { isAbsolute } from 'node:path';
import { refused } from './service-parts.ts';

function isFolder(path: string): boolean {
  try {
    return statSync(path).isDirectory();
  } catch {
    return false;
  }
}

/**
 * A folder that a person typed on the page. A part of a path would lead to wherever the program was started, and a drive that
 * is not plugged in would become a folder of this one: both would hold records where nobody looks for them.
 * @throws  Refused when it is not the whole path of a folder that is there
 */
export function namedFolder(path: string): string {
  if (!isAbsolute(path))
    throw refused('no-folder', path, 'say the whole path, as /media/stick/records or E:\\records');
  if (!isFolder(path))
    throw refused('no-folder', path, "the folder isn't there; plug the drive in, or make the folder first");
  return path;
}
