import type { Database } from 'better-sqlite3';
import { ArchiveFault } from './archive-fault.ts';
import { ground } from './steps/001-ground.ts';
import { gainControl } from './steps/002-gain-control.ts';
import { settingsStep } from './steps/003-settings.ts';
import { meterLink } from './steps/004-meter-link.ts';
import { meterProof } from './steps/005-meter-proof.ts';

/** In order, never edited once released; a step's number is its place. */
export const steps: readonly string[] = [ground, gainControl, settingsStep, meterLink, meterProof];

/** @throws  ArchiveFault `newer` when the archive knows a step that this program doesn't */
export function refuseNewer(version: number, known: number, path: string): void {
  if (version > known)
    throw new ArchiveFault(
      'newer',
      path,
      `this archive is of version ${version}, and this program knows ${known}; start the newer Tiltwright that made it. Nothing was changed`,
    );
}

/** A step and its number are kept together or not at all; an archive of a newer program is refused untouched. */
export function migrate(archive: Database, all: readonly string[] = steps): void {
  const at = Number(archive.pragma('user_version', { simple: true }));
  refuseNewer(at, all.length, archive.name);
  all.slice(at).forEach((sql, i) => {
    archive.transaction(() => archive.exec(`${sql}\nPRAGMA user_version = ${at + i + 1};`)).immediate();
  });
}
