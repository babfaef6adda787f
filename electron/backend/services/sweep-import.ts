import { createHash } from 'node:crypto';
import type { Input, Output } from '../../../core/bridge/contract.ts';
import type { Reading } from '../../../core/bridge/records.ts';
import { Refused } from '../../../core/bridge/refused.ts';
import { encoded } from '../../../core/files/encoded.ts';
import type { Encoding } from '../../../core/files/encoding.ts';
import { readSweepCsv } from '../../../core/files/sweep-csv.ts';
import type { LevelRow } from '../../../core/line/level-row.ts';
import { orderedJson, thousandthsOf } from '../archive/quantities.ts';
import type { Written } from '../archive/sweep-files.ts';
import { MOST_DBMV, MOST_MHZ, readingRowOf } from './as-records.ts';
import { type Designs, portOf } from './designs.ts';
import { pluggedInNow } from './plugged-in.ts';
import { refused, type ServiceParts } from './service-parts.ts';
import type { Visits } from './visits.ts';

type Left = { line: number; reason: string };

/** What of a file's rows is a reading, and what is left out or kept without its level, with the reason. */
function readingsOf(
  rows: readonly LevelRow[],
  takenAt: string,
  fileName: string,
): Readonly<{ readings: readonly Reading[]; left: Left[] }> {
  const readings: Reading[] = [];
  const left: Left[] = [];
  for (const row of rows) {
    const line = row.line ?? 0;
    const { frequencyMhz, levelDbmv, unlocked = false } = row;
    if (
      (frequencyMhz !== null && frequencyMhz > MOST_MHZ) ||
      (levelDbmv !== null && Math.abs(levelDbmv) > MOST_DBMV)
    )
      throw refused(
        'out-of-range',
        `${fileName}, line ${line}`,
        'no cable carries this; check the units in the header',
      );
    if (frequencyMhz === null || levelDbmv === null || unlocked)
      left.push({ line, reason: row.reason ?? (unlocked ? 'not locked' : 'no level') });
    if (frequencyMhz !== null)
      readings.push({
        frequencyMhz,
        meterDbmv: unlocked ? null : levelDbmv,
        kind: row.kind ?? null,
        takenAt,
      });
  }
  return { readings, left };
}

/** Null for UTF-8, which is how the text itself is kept. */
function writtenAs(text: string, encoding: Encoding, fileName: string): Written | null {
  if (encoding === 'utf-8') return null;
  const bytes = encoded(text, encoding);
  if (bytes === null)
    throw refused('not-text', fileName, `it is not written in ${encoding}; choose it again`);
  return { encoding, sha256: createHash('sha256').update(bytes).digest('hex') };
}

/**
 * A sweep from a file, whole or not at all. Its time is that of the import, because a file says none; its text is kept
 * with it, because it may hold more than levels, and in what it was written, so that it can be given out byte by byte.
 */
export function importSweep(
  parts: ServiceParts,
  designs: Designs,
  visits: Visits,
  input: Input<'sweeps.import'>,
): Output<'sweeps.import'> {
  const { archive, now, newId } = parts;
  const visit = visits.openVisit(input.visitId);
  const design = designs.newest(visit.stationId);
  const port = portOf(design.station, input.portName);
  const read = readSweepCsv(input.text, input.fileName, input.told ?? {});
  if (!read.ok) throw new Refused(read);
  const startedAt = now();
  const { readings, left } = readingsOf(read.value.rows, startedAt.toISOString(), input.fileName);
  if (readings.length === 0)
    throw refused('no-readings', input.fileName, 'no row names a frequency; check the first column');
  const written = writtenAs(input.text, input.encoding ?? 'utf-8', input.fileName);
  const sweepId = newId();
  archive.write(() => {
    const seq = archive.sweeps.add({
      sweepId,
      visit: visit.seq,
      stationId: visit.stationId,
      revision: design.revision,
      portName: port.name,
      hasDesign: port.design !== undefined,
      purpose: input.purpose,
      source: 'file',
      sourceName: input.fileName,
      meter: null,
      testPointLossMdb: thousandthsOf(input.testPointLossDb),
      ambientMc: visit.ambientMc,
      plannedCount: readings.length,
      pluggedIn: orderedJson(pluggedInNow(archive, design)),
      startedAtMs: startedAt.getTime(),
    });
    archive.sweeps.addFile(seq, input.text, written);
    readings.forEach((reading, place) => {
      archive.sweeps.addReading(seq, place, readingRowOf(reading));
    });
    archive.sweeps.end(seq, {
      state: 'complete',
      reason: null,
      recovered: false,
      readingCount: readings.length,
      endedAtMs: startedAt.getTime(),
    });
  });
  parts.log.info({ sweepId, fileName: input.fileName, left: left.length }, 'sweep imported');
  return { sweepId, left };
}
