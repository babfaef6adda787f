import type { Database } from 'better-sqlite3';
import { ArchiveFault } from './archive-fault.ts';
import { ground } from './steps/001-ground.ts';
import { gainControl } from './steps/002-gain-control.ts';
import { settingsStep } from './steps/003-settings.ts';
import { meterLink } from './steps/004-meter-link.ts';
import { meterProof } from './steps/005-meter-proof.ts';
import { recordChain } from './steps/006-records.ts';
import { trimTurns } from './steps/007-trim-turns.ts';
import { judgedSweeps } from './steps/008-judged-sweeps.ts';
import { transfer } from './steps/009-transfer.ts';
import { stationTrends } from './steps/010-station-trends.ts';
import { writtenFiles } from './steps/011-written-files.ts';

/** SQL, or what a step does where SQL alone can't. */
export type Step = string | ((db: Database) => void);

/** In order, never edited once released; a step's number is its place. */
export const steps: readonly Step[] = [
  ground,
  gainControl,
  settingsStep,
  meterLink,
  meterProof,
  recordChain,
  trimTurns,
  judgedSweeps,
  transfer,
  stationTrends,
  writtenFiles,
];

/** @throws  ArchiveFault `newer` when the archive knows a step that this program doesn't */
export function refuseNewer(version: number, known: number, path: string): void {
  if (version > known)
    throw new ArchiveFault(
      'newer',
      path,
      `this archive is of version ${version}, and this program knows ${known}; start the newer Tiltwright that made it. Nothing was changed`,
    );
}

/**
 * A step and its number are kept together or not at all; an archive of a newer program is refused untouched. A table that
 * is made anew would take its children with it, so foreign keys are looked at once, at each step's end.
 */
export function migrate(archive: Database, all: readonly Step[] = steps): void {
  const at = Number(archive.pragma('user_version', { simple: true }));
  refuseNewer(at, all.length, archive.name);
  if (at === all.length) return;
  const checked = archive.pragma('foreign_keys', { simple: true }) === 1;
  archive.pragma('foreign_keys = OFF');
  try {
    all.slice(at).forEach((step, i) => {
      archive
        .transaction(() => {
          if (typeof step === 'string') archive.exec(step);
          else step(archive);
          const [stray] = archive.pragma('foreign_key_check') as readonly unknown[];
          if (stray !== undefined) throw new Error(`step ${at + i + 1} left ${JSON.stringify(stray)}`);
          archive.pragma(`user_version = ${at + i + 1}`);
        })
        .immediate();
    });
  } finally {
    if (checked) archive.pragma('foreign_keys = ON');
  }
}
