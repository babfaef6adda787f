import { closeSync, openSync, readSync, statSync } from 'node:fs';

/** "Tilt", as four bytes: what SQLite keeps as the application's own mark in the header of the file. */
export const APPLICATION_ID = 0x54696c74;

export type FileHeader =
  | Readonly<{ kind: 'absent' }>
  | Readonly<{ kind: 'empty' }>
  | Readonly<{ kind: 'not-a-database' }>
  | Readonly<{ kind: 'database'; applicationId: number; userVersion: number }>;

const MAGIC = Buffer.from('SQLite format 3\0', 'latin1');
const HEADER_BYTES = 100;

/**
 * Looks at a file without SQLite, so that one which is refused keeps every byte and its time stamp. Offsets of the
 * header as SQLite's published file format has them: user version at 60, application id at 68, both big-endian.
 */
export function readFileHeader(path: string): FileHeader {
  const found = statSync(path, { throwIfNoEntry: false });
  if (found === undefined) return { kind: 'absent' };
  if (!found.isFile()) return { kind: 'not-a-database' };
  if (found.size === 0) return { kind: 'empty' };
  const header = Buffer.alloc(HEADER_BYTES);
  const file = openSync(path, 'r');
  try {
    if (readSync(file, header, 0, HEADER_BYTES, 0) < HEADER_BYTES) return { kind: 'not-a-database' };
  } finally {
    closeSync(file);
  }
  if (!header.subarray(0, MAGIC.length).equals(MAGIC)) return { kind: 'not-a-database' };
  return { kind: 'database', userVersion: header.readInt32BE(60), applicationId: header.readInt32BE(68) };
}
