import { randomUUID } from 'node:crypto';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { type Archive, openArchive } from '../../electron/backend/archive/open.ts';
import { orderedJson } from '../../electron/backend/archive/quantities.ts';
import { giveOut } from '../../electron/backend/services/give-out.ts';
import { stationFile } from '../../tests/support/station-file.ts';
import type { OtherFile } from './ledger.ts';
import { killSession } from './session.ts';
import { below } from './work.ts';

const BASE_MS = Date.parse('2026-01-05T08:00:00Z');
const CHANNELS = 60;

function sweepInto(archive: Archive, chance: () => number, stationId: string, visit: number, atMs: number) {
  const levels = Array.from({ length: CHANNELS }, (_, i) => (i === 7 ? null : below(chance, 400) * 100));
  const sweepId = randomUUID();
  const seq = archive.sweeps.add({
    ...{ sweepId, visit, stationId, revision: 1, portName: 'forward output', hasDesign: true },
    ...{ purpose: 'as-found', source: 'meter', sourceName: 'scpi', testPointLossMdb: 20_000 },
    meter: orderedJson({ maker: 'Bench', model: 'Level 4', serialNumber: '0042', firmware: '1.7' }),
    ...{ ambientMc: null, plannedCount: CHANNELS, pluggedIn: orderedJson({ 'input pad': 6 }) },
    startedAtMs: atMs,
  });
  levels.forEach((meterMdbmv, place) => {
    const frequencyHz = 54_000_000 + place * 6_000_000;
    archive.sweeps.addReading(seq, place, { frequencyHz, meterMdbmv, kind: null, takenAtMs: atMs + place });
  });
  archive.sweeps.end(seq, {
    ...{ state: 'complete', reason: null, recovered: false, readingCount: CHANNELS },
    endedAtMs: atMs + CHANNELS,
  });
  return { sweepId, levels };
}

/**
 * Files of another laptop, each of a station of its own with so many sweeps.
 * @param into  the folder of the files; the laptop's archive is made beside it
 */
export async function filesOfAnother(
  into: string,
  {
    fileCount,
    sweepCount,
    chance,
  }: Readonly<{ fileCount: number; sweepCount: number; chance: () => number }>,
): Promise<readonly OtherFile[]> {
  mkdirSync(into, { recursive: true });
  const archive = openArchive({ folder: `${into}-laptop`, session: killSession(BASE_MS) });
  const files: OtherFile[] = [];
  try {
    for (let i = 0; i < fileCount; i += 1) {
      const stationId = `pier-${i}`;
      const sweeps = new Map<string, readonly (number | null)[]>();
      archive.write(() => {
        archive.stations.add(stationId, BASE_MS);
        const design = orderedJson(JSON.parse(stationFile({ id: stationId, name: `Pier ${i}` })));
        const row = { stationId, revision: 1, name: `Pier ${i}`, design, fileName: 's.json' };
        archive.stations.addRevision({ ...row, addedAtMs: BASE_MS });
        const visitId = randomUUID();
        const startedAtMs = BASE_MS + i * 3_600_000;
        archive.visits.add({
          ...{ visitId, stationId, operator: 'A. Brandt', ambientMc: null },
          ...{ cautionsReadAtMs: startedAtMs, startedAtMs },
        });
        const visit = archive.visits.byId(visitId)?.seq ?? 0;
        for (let sweep = 0; sweep < sweepCount; sweep += 1) {
          const { sweepId, levels } = sweepInto(
            archive,
            chance,
            stationId,
            visit,
            startedAtMs + sweep * 1000,
          );
          sweeps.set(sweepId, levels);
        }
        archive.visits.end(visit, '', startedAtMs + sweepCount * 1000);
      });
      const given = await giveOut(
        archive,
        { what: { kind: 'station', stationId }, path: into, madeAtMs: BASE_MS + i * 1000 },
        new AbortController().signal,
      );
      files.push({ path: given.path, fileName: given.fileName, sweeps });
    }
  } finally {
    archive.close();
  }
  return files.map((file) => ({ ...file, path: join(into, file.fileName) }));
}
