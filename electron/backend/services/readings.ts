import type { Reading } from '../../../core/bridge/records.ts';
import { readSweepCsv } from '../../../core/files/sweep-csv.ts';
import type { Archive } from '../archive/open.ts';
import type { SweepRow } from '../archive/sweeps.ts';
import { readingOf } from './as-records.ts';

/**
 * A sweep's readings as a page and a verdict see them. A sweep from a file also says what its rows are modulated with:
 * the archive keeps the file whole, and its rows stand in the order of the readings.
 */
export function readingsOf(
  archive: Archive,
  row: Pick<SweepRow, 'seq' | 'source' | 'sourceName'>,
): Reading[] {
  const readings = archive.sweeps.readings(row.seq).map(readingOf);
  const body = row.source === 'file' ? archive.sweeps.fileOf(row.seq) : undefined;
  const read = body === undefined ? null : readSweepCsv(body, row.sourceName);
  if (read?.ok !== true) return readings;
  const rows = read.value.rows.filter(({ frequencyMhz }) => frequencyMhz !== null);
  // A program that reads files differently than the one that kept it must not put words to the wrong rows.
  if (rows.length !== readings.length) return readings;
  return readings.map((reading, i) => {
    const modulation = rows[i]?.modulation?.trim().slice(0, 60);
    return modulation === undefined || modulation === '' ? reading : { ...reading, modulation };
  });
}
