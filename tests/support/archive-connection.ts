import { join } from 'node:path';
import type Database from 'better-sqlite3';
import { ARCHIVE_FILE } from '../../electron/backend/archive/open.ts';
import { opened } from './watched-sqlite.ts';

/** The connection over which an archive that is open now is written, of this folder if one is named; needs the package to be watched. */
export function connection(folder?: string): Database.Database {
  const isIt = (name: string) =>
    folder === undefined ? name.endsWith(ARCHIVE_FILE) : name === join(folder, ARCHIVE_FILE);
  const found = opened.findLast((db) => db.open && !db.readonly && isIt(db.name));
  if (found === undefined) throw new Error('no connection');
  return found;
}

/** SQLite then says "database or disk is full", as it does on a full disk; portable, and needs no rights. */
export function fillTheDisk(pagesLeft = 0): void {
  const pageCount = Number(connection().pragma('page_count', { simple: true }));
  connection().pragma(`max_page_count = ${pageCount + pagesLeft}`);
}

export const freeTheDisk = (): void => void connection().pragma('max_page_count = 1000000');
