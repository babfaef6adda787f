import type { Database } from 'better-sqlite3';
import { ArchiveFault } from './archive-fault.ts';

/** SQLite before this one could damage an archive when two connections wrote and checkpointed at the same instant. */
export const OLDEST_SAFE_SQLITE = '3.51.3';

/**
 * What makes a commit mean "on the disk". Every one is set at every open, because SQLite keeps none but the journal
 * mode in the file: a reopened archive would silently fall back to a weaker `synchronous`.
 * `recursive_triggers` lets the triggers that guard the records see a REPLACE as well.
 */
const wanted: readonly (readonly [pragma: string, set: string, readBack: string | number])[] = [
  ['journal_mode', 'WAL', 'wal'],
  ['synchronous', 'FULL', 2],
  ['fullfsync', 'ON', 1],
  ['checkpoint_fullfsync', 'ON', 1],
  ['foreign_keys', 'ON', 1],
  ['recursive_triggers', 'ON', 1],
  ['trusted_schema', 'OFF', 0],
];

/** @returns  true when version `a` is `b` or newer, both as "3.51.3" */
export function atLeastVersion(a: string, b: string): boolean {
  const [left, right] = [a, b].map((version) => version.split('.').map(Number));
  for (let i = 0; i < 3; i += 1) {
    const difference = (left?.[i] ?? 0) - (right?.[i] ?? 0);
    if (difference !== 0) return difference > 0;
  }
  return true;
}

/** @throws  ArchiveFault `unsafe` when this SQLite is too old to be trusted with records */
export function assertSafeSqlite(archive: Database, path: string): void {
  const version = String(archive.prepare('SELECT sqlite_version()').pluck().get());
  if (!atLeastVersion(version, OLDEST_SAFE_SQLITE))
    throw new ArchiveFault(
      'unsafe',
      path,
      `this program came with SQLite ${version}; records need ${OLDEST_SAFE_SQLITE} or newer: install it again`,
    );
}

/** Sets each, reads each back. @throws ArchiveFault `unsafe` when one doesn't hold: then nothing may be recorded */
export function makeDurable(archive: Database, path: string): void {
  for (const [pragma, set, readBack] of wanted) {
    archive.pragma(`${pragma} = ${set}`);
    const is = archive.pragma(pragma, { simple: true });
    if (is !== readBack)
      throw new ArchiveFault(
        'unsafe',
        path,
        `SQLite's ${pragma} is ${String(is)} instead of ${readBack}, so nothing would be safe here; use a folder on a local disk`,
      );
  }
}
