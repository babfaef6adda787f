import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { KeptReading } from '../core/records/pack-readings.ts';
import { normalNoise } from '../core/simulate/noise.ts';
import { quillmere } from '../core/simulate/quillmere.ts';
import { type Archive, openArchive } from '../electron/backend/archive/open.ts';
import { orderedJson } from '../electron/backend/archive/quantities.ts';

export const CHANNELS = 158;
/** The low channels; QAM is carried this far below them. */
const ANALOG = 30;
const QAM_DOWN_DB = 6;
const READING_MS = 20;
const BASE_MS = Date.parse('2026-01-05T08:00:00Z');

/** Readings as a meter tells them: tenths of a dB about a line, some 20 ms apart. */
export function readingsOf(sweep: number, startedAtMs: number): readonly KeptReading[] {
  return Array.from({ length: CHANNELS }, (_, i) => {
    const frequencyMhz = 54 + (i * 816) / (CHANNELS - 1);
    const isAnalog = i < ANALOG;
    const downDb = isAnalog ? 0 : QAM_DOWN_DB;
    const levelDbmv = 16 + (10 * i) / (CHANNELS - 1) - downDb + 0.3 * normalNoise(sweep, frequencyMhz, 0);
    return {
      frequencyHz: Math.round(frequencyMhz * 1e6),
      meterMdbmv: Math.round(levelDbmv * 10) * 100,
      kind: isAnalog ? 'analog' : 'qam',
      takenAtMs: startedAtMs + i * READING_MS + Math.round(2 * normalNoise(sweep, frequencyMhz, 1)),
    };
  });
}

export const benchSession = () => ({
  sessionId: randomUUID(),
  openedAtMs: BASE_MS,
  program: '0',
  host: 'memory' as const,
  utcOffsetMin: 0,
  timeZone: 'UTC',
});

/** An archive that many trucks could have filled: `sweepCount` sweeps in `stationCount` stations, 200 of them in the first. */
export function fillArchive(folder: string, sweepCount: number, stationCount: number): Archive {
  const archive = openArchive({ folder, session: benchSession() });
  const [model] = quillmere;
  if (model === undefined) throw new Error('no station');
  const port = model.station.ports.find(({ design }) => design !== undefined);
  if (port === undefined) throw new Error('no port');
  const meter = orderedJson({ maker: 'Bench', model: 'Level 4', serialNumber: '0042', firmware: '1.7' });
  const pluggedIn = orderedJson(
    Object.fromEntries(model.station.positions.map(({ name, installed }) => [name, installed])),
  );
  let atMs = BASE_MS;
  const name = (station: number) => `QM-${String(station).padStart(5, '0')}`;
  archive.write(() => {
    for (let station = 0; station < stationCount; station += 1) {
      archive.stations.add(name(station), atMs);
      const design = orderedJson({ ...model.station, id: name(station), name: name(station) });
      const row = { stationId: name(station), revision: 1, name: name(station), design, addedAtMs: atMs };
      archive.stations.addRevision({ ...row, fileName: 'bench' });
    }
  });
  const history = Math.min(200, sweepCount);
  let made = 0;
  /** A visit with its sweep as found and its sweep as left. */
  const visit = (station: string): void => {
    const visitId = randomUUID();
    const ambientMc = 15_000;
    atMs += 3_600_000;
    archive.visits.add({
      visitId,
      stationId: station,
      operator: 'R. Voss',
      ambientMc,
      cautionsReadAtMs: atMs,
      startedAtMs: atMs,
    });
    const { seq: visitSeq } = archive.visits.byId(visitId) ?? { seq: 0 };
    for (const purpose of ['as-found', 'as-left'] as const) {
      atMs += 600_000;
      const seq = archive.sweeps.add({
        sweepId: randomUUID(),
        visit: visitSeq,
        stationId: station,
        revision: 1,
        portName: port.name,
        hasDesign: true,
        purpose,
        source: 'meter',
        sourceName: 'scpi',
        meter,
        testPointLossMdb: 20_000,
        ambientMc,
        plannedCount: CHANNELS,
        pluggedIn,
        startedAtMs: atMs,
      });
      const readings = readingsOf(made, atMs);
      readings.forEach((reading, place) => {
        archive.sweeps.addReading(seq, place, reading);
      });
      const endedAtMs = atMs + CHANNELS * READING_MS;
      archive.sweeps.end(seq, {
        state: 'complete',
        reason: null,
        recovered: false,
        readingCount: CHANNELS,
        endedAtMs,
      });
      made += 1;
    }
    archive.visits.end(visitSeq, '', atMs);
  };
  while (made < sweepCount)
    archive.write(() => {
      for (let i = 0; i < 100 && made < sweepCount; i += 1)
        visit(name(made < history ? 0 : 1 + ((made >> 1) % Math.max(1, stationCount - 1))));
    });
  return archive;
}

/** Does something with such an archive in a folder of its own, which is gone afterwards. */
export async function inFilledArchive<T>(
  sweepCount: number,
  stationCount: number,
  work: (folder: string) => Promise<T>,
): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'tiltwright-bench-'));
  try {
    fillArchive(folder, sweepCount, stationCount).close();
    return await work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
