import type { MeterIdentity } from '../../../core/bridge/records.ts';
import { writeSweepCsv } from '../../../core/files/write-csv.ts';
import { rowsAtPort } from '../../../core/line/port-level.ts';
import type { Archive } from '../archive/open.ts';
import { fromThousandths, momentOf } from '../archive/quantities.ts';
import type { ReadingRow, SweepRow } from '../archive/sweeps.ts';
import { readingOf, summaryOf, type Unended } from './as-records.ts';
import type { Designs } from './designs.ts';
import { fileNameOf } from './file-name.ts';

/** Which meter it was, and until when its calibration held. */
const meterLines = ({ maker, model, serialNumber, firmware, calibrationDueOn }: MeterIdentity): string[] => [
  `meter: ${[maker, model, serialNumber, firmware].join(',')}`,
  ...(calibrationDueOn === undefined ? [] : [`calibration due: ${calibrationDueOn}`]),
];

/**
 * A sweep as the file that is exported, and whose hash a report prints: the same bytes whenever it is asked for.
 * @param held  readings that the disk refused so far; they follow those in the archive
 */
export function sweepFile(
  archive: Archive,
  designs: Designs,
  row: SweepRow,
  unended: Unended,
  held: readonly ReadingRow[] = [],
): Readonly<{ fileName: string; text: string }> {
  const { station } = designs.at(row.stationId, row.revision);
  const startedAt = momentOf(row.startedAtMs);
  const { state, endReason, meter } = summaryOf(row, unended);
  const testPointLossDb = fromThousandths(row.testPointLossMdb);
  const read = [...archive.sweeps.readings(row.seq), ...held];
  const rows = rowsAtPort(read.map(readingOf), testPointLossDb);
  return {
    fileName: fileNameOf(
      [
        station.name,
        row.portName,
        row.purpose,
        `${startedAt.slice(0, 16).replace('T', '-').replace(':', '')}Z`,
      ],
      'csv',
    ),
    text: writeSweepCsv(rows, [
      `${station.name} (${station.id}, revision ${row.revision}), ${row.portName}, ${row.purpose}, ${startedAt}`,
      `levels at the port; the test point's ${testPointLossDb} dB are added`,
      `sweep ${row.sweepId}, from ${row.source} ${row.sourceName}, ${state}${endReason === null ? '' : `: ${endReason}`}`,
      ...(meter === null ? [] : meterLines(meter)),
    ]),
  };
}
