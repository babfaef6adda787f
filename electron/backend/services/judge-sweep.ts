import { conditionsOf } from '../../../core/bridge/conditions.ts';
import { MeterIdentity } from '../../../core/bridge/records.ts';
import type { Settings } from '../../../core/bridge/settings-calls.ts';
import type { StationNotes } from '../../../core/files/station-notes.ts';
import { type MeterReading, rowsAtPort } from '../../../core/line/port-level.ts';
import {
  type StandingRefusal,
  type StationStanding,
  standingAgainstDesign,
} from '../../../core/line/standing.ts';
import type { Result } from '../../../core/result.ts';
import type { Archive } from '../archive/open.ts';
import { fromThousandths, maybe } from '../archive/quantities.ts';
import { remembered } from '../archive/remembered.ts';
import type { SweepRow } from '../archive/sweeps.ts';
import type { Designs } from './designs.ts';
import { readingsOf } from './readings.ts';

/** What of a sweep's row a judgement needs. */
export type JudgedRow = Pick<
  SweepRow,
  | 'seq'
  | 'stationId'
  | 'revision'
  | 'portName'
  | 'source'
  | 'sourceName'
  | 'meter'
  | 'testPointLossMdb'
  | 'ambientMc'
>;

/** All that may change how a sweep stands: what is kept of judged sweeps is told apart by nothing else. */
export type JudgedBy = Readonly<{
  settings: Pick<Settings, 'meter' | 'sheets'>;
  notes: Pick<StationNotes, 'meter' | 'lineUp'> | null;
}>;

/** Many sweeps share one text. */
const identityOf = remembered((json) => MeterIdentity.parse(JSON.parse(json)));

/** When each was read says nothing about how it stands, and to spell that takes longer than to judge them all. */
function meterReadings(archive: Archive, seq: number): MeterReading[] {
  const levels = archive.quality.levels(seq);
  if (levels === undefined) return [];
  const { frequenciesMhz, meterMdbmv, kindOf } = levels;
  return frequenciesMhz.map((frequencyMhz, i) => ({
    frequencyMhz,
    meterDbmv: maybe(meterMdbmv[i] ?? null, fromThousandths),
    kind: kindOf[i] ?? null,
  }));
}

/**
 * How an ended sweep stands against the design revision that it was read under, by the settings and notes that hold now.
 * @returns  null at a port without a design line; a refusal where its readings can't be judged
 */
export function judgeSweep(
  archive: Archive,
  designs: Designs,
  row: JudgedRow,
  { settings, notes }: JudgedBy,
): Result<StationStanding, StandingRefusal> | null {
  const design = designs.lineAt(row.stationId, row.revision, row.portName);
  if (design === undefined) return null;
  const readings = row.source === 'meter' ? meterReadings(archive, row.seq) : readingsOf(archive, row);
  return standingAgainstDesign(rowsAtPort(readings, fromThousandths(row.testPointLossMdb)), design, {
    uncertainty: conditionsOf(settings, notes, {
      meter: maybe(row.meter, identityOf),
      ambientC: maybe(row.ambientMc, fromThousandths),
    }),
    lineUp: notes?.lineUp ?? null,
  });
}
