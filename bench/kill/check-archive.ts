import { cpSync, mkdirSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import {
  ARCHIVE_FILE,
  type Archive,
  ENDED_BY_RECOVERY,
  openArchive,
} from '../../electron/backend/archive/open.ts';
import { rereadSweep } from '../../electron/backend/services/sweep-reread.ts';
import { verify } from '../../electron/backend/services/verify.ts';
import { recordLosses } from './check-records.ts';
import type { Ledger, OtherFile } from './ledger.ts';
import type { Level } from './said.ts';
import { killSession } from './session.ts';

export type Extent = Readonly<{ records: number; sweeps: number; readings: number }>;
export type Found = Readonly<{ losses: readonly string[]; extent: Extent; recovered: number }>;

const words = (fault: unknown): string => (fault instanceof Error ? fault.message : String(fault));
const same = (a: readonly Level[], b: readonly Level[]) =>
  a.length === b.length && a.every((level, i) => level === b[i]);

function sweepLosses(archive: Archive, { sweeps }: Ledger): string[] {
  return [...sweeps].flatMap(([sweepId, known]) => {
    const row = archive.sweeps.byId(sweepId);
    if (row === undefined) return [`sweep ${sweepId} is gone`];
    const levels = archive.sweeps.readings(row.seq).map(({ meterMdbmv }) => meterMdbmv);
    if (!same(levels.slice(0, known.levels.length), known.levels))
      return [`sweep ${sweepId} has not the ${known.levels.length} readings that were told of`];
    if (row.readingCount !== levels.length)
      return [`sweep ${sweepId} says ${row.readingCount} readings and has ${levels.length}`];
    const { end, planned } = known;
    const isAsTold =
      end === null
        ? // Killed between its end and our hearing of it, a sweep may have ended by itself.
          (row.state === 'partial' &&
            (row.reason === ENDED_BY_RECOVERY || row.reason === 'stopped by hand')) ||
          (row.state === 'complete' && levels.length === planned)
        : row.state === end.state && levels.length === end.count;
    return isAsTold
      ? []
      : [`sweep ${sweepId} is ${row.state} (${row.reason}) with ${levels.length} readings`];
  });
}

/** Every sweep from a file is the whole file, whether somebody was told of it or not. */
function importLosses(archive: Archive, db: Database.Database, { announced }: Ledger): string[] {
  const rows = db
    .prepare<[], { sweepId: string; fileName: string }>(
      "SELECT sweep_id sweepId, source_name fileName FROM sweep WHERE source = 'file' AND corrects IS NULL",
    )
    .all();
  return rows.flatMap(({ sweepId, fileName }) => {
    const row = archive.sweeps.byId(sweepId);
    const levels = archive.sweeps.readings(row?.seq ?? -1).map(({ meterMdbmv }) => meterMdbmv);
    const isWhole = row?.state === 'complete' && same(levels, announced.get(fileName) ?? []);
    return isWhole ? [] : [`the import of ${fileName} is half there`];
  });
}

/** A file of another laptop is in as a whole, or not at all. */
function takenLosses(archive: Archive, { taken }: Ledger, files: readonly OtherFile[]): string[] {
  const listed = new Set(archive.transfer.takenFiles().map(({ fileName }) => fileName));
  return files.flatMap(({ fileName, sweeps }) => {
    const here = [...sweeps].filter(([sweepId, levels]) => {
      const row = archive.sweeps.byId(sweepId);
      if (row === undefined) return false;
      const kept = archive.sweeps.readings(row.seq).map(({ meterMdbmv }) => meterMdbmv);
      return row.state === 'complete' && same(kept, levels);
    }).length;
    const isIn = here === sweeps.size && listed.has(fileName);
    if (taken.has(fileName) && !isIn) return [`${fileName}: ${here} of ${sweeps.size} sweeps are here`];
    return isIn || (here === 0 && !listed.has(fileName))
      ? []
      : [`${fileName} is half taken in: ${here} of ${sweeps.size} sweeps`];
  });
}

/** The bytes of the sweeps that the meter read say the same as their readings. Each is looked at once: it takes long. */
async function byteLosses(archive: Archive, ledger: Ledger): Promise<string[]> {
  const losses: string[] = [];
  for (const [sweepId, { levels, planned }] of ledger.sweeps) {
    const row = planned === null || levels.length === 0 ? undefined : archive.sweeps.byId(sweepId);
    if (row === undefined || row.source !== 'meter' || ledger.reread.has(sweepId)) continue;
    ledger.reread.add(sweepId);
    try {
      const { kept, same: isSame } = await rereadSweep({ archive }, row);
      if (!kept) losses.push(`the bytes of sweep ${sweepId} are gone`);
      else if (!isSame) losses.push(`the bytes of sweep ${sweepId} say otherwise`);
    } catch (fault) {
      losses.push(`the bytes of sweep ${sweepId}: ${words(fault)}`);
    }
  }
  return losses;
}

function headLosses(archive: Archive, { heads }: Ledger): string[] {
  return [...heads.values()].flatMap(({ device, seq, hash }) => {
    if (seq === 0) return [];
    const there = archive.copies.upTo({ head: { device, seq, hash }, links: 0, newestLink: 0 });
    return there.hash === hash ? [] : [`record ${seq} of laptop ${device.slice(0, 8)} is gone or another`];
  });
}

/** A copy of what a killed program left, its log along with it; the original is left to the next program. */
export function copyArchive(from: string, to: string, file = ARCHIVE_FILE): void {
  mkdirSync(to, { recursive: true });
  for (const name of readdirSync(from))
    if (name === file || (name.startsWith(`${file}-`) && !name.endsWith('-shm')))
      cpSync(join(from, name), join(to, name.replace(file, ARCHIVE_FILE)));
}

/**
 * Opens an archive as the program does and holds it against everything that was acknowledged of it.
 * @param folder  of a copy: sweeps without an end are ended in it
 */
export async function checkArchive(
  folder: string,
  ledger: Ledger,
  files: readonly OtherFile[],
): Promise<Found> {
  let archive: Archive;
  try {
    archive = openArchive({ folder, session: killSession(Date.now()) });
  } catch (fault) {
    return {
      losses: [`it can't be opened: ${words(fault)}`],
      extent: { records: 0, sweeps: 0, readings: 0 },
      recovered: 0,
    };
  }
  const losses: string[] = [];
  const db = new Database(join(folder, ARCHIVE_FILE), { readonly: true });
  try {
    const { broken, records, sweeps } = await verify(archive, new AbortController().signal);
    losses.push(...broken.map((one) => one.words));
    losses.push(...headLosses(archive, ledger), ...sweepLosses(archive, ledger));
    losses.push(...importLosses(archive, db, ledger), ...takenLosses(archive, ledger, files));
    losses.push(...recordLosses(archive, db, ledger));
    losses.push(...(await byteLosses(archive, ledger)));
    if (archive.sweeps.unfinished().length > 0) losses.push('a sweep without an end was not ended');
    const [stray] = db.pragma('foreign_key_check') as readonly unknown[];
    if (stray !== undefined) losses.push(`a row names one that is not there: ${JSON.stringify(stray)}`);
    const readings = Number(
      db.prepare('SELECT coalesce(sum(reading_count), 0) FROM sweep_end').pluck().get(),
    );
    return { losses, extent: { records, sweeps, readings }, recovered: archive.recovered.length };
  } catch (fault) {
    losses.push(`it can't be read: ${words(fault)}`);
    return { losses, extent: { records: 0, sweeps: 0, readings: 0 }, recovered: 0 };
  } finally {
    db.close();
    archive.close();
    losses.push(...quickCheckLosses(join(folder, ARCHIVE_FILE)));
  }
}

/** SQLite's own look at a closed archive. */
function quickCheckLosses(path: string): string[] {
  const db = new Database(path, { readonly: true });
  try {
    const check = db.pragma('quick_check', { simple: true });
    return check === 'ok' ? [] : [`quick_check: ${String(check)}`];
  } finally {
    db.close();
  }
}
