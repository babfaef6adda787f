import type { Reading } from '../../../core/bridge/records.ts';
import { modulationsOf } from '../../../core/files/modulations-of.ts';
import type { Archive } from '../archive/open.ts';
import type { SweepRow } from '../archive/sweeps.ts';
import { readingOf } from './as-records.ts';

/**
 * A sweep's readings as a page and a verdict see them. A sweep from a file also says what its rows are modulated with:
 * the archive keeps the file whole. A file that no way of reading makes these readings of puts no words to them.
 */
export function readingsOf(
  archive: Archive,
  row: Pick<SweepRow, 'seq' | 'source' | 'sourceName'>,
): Reading[] {
  const readings = archive.sweeps.readings(row.seq).map(readingOf);
  const body = row.source === 'file' ? archive.sweeps.fileOf(row.seq)?.text : undefined;
  const frequenciesMhz = readings.map(({ frequencyMhz }) => frequencyMhz);
  const words = body === undefined ? null : modulationsOf(body, row.sourceName, frequenciesMhz);
  if (words === null) return readings;
  return readings.map((reading, i) => {
    const modulation = words[i]?.trim().slice(0, 60);
    return modulation === undefined || modulation === '' ? reading : { ...reading, modulation };
  });
}
