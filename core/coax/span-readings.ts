import type { LineUpEntry } from '../channels/line-up.ts';
import type { Design } from '../files/station.ts';
import { chooseRows } from '../line/choose-rows.ts';
import { targetDbmv } from '../line/design-line.ts';
import type { LevelRow } from '../line/level-row.ts';
import type { SpanReading } from './span-check.ts';

/** Two readings this near are of one carrier, MHz. */
const SAME_CARRIER_MHZ = 0.05;

/** What goes into a span: a sweep at the output of the station before, or its design where it was not read. */
export type Sent =
  | Readonly<{ from: 'sweep'; rows: readonly LevelRow[] }>
  | Readonly<{ from: 'design'; design: Design }>;

/**
 * Carriers that are known at both ends of a span. Rows that are no carriers are left out, and rows of several kinds of
 * signal are moved onto one line, as for a fit.
 * @param received  levels at the far end, dBmV at the port, any order
 * @param sent      what went in, dBmV at the port
 * @param lineUp    of the network, or null
 * @returns  in rising frequency; carriers that only one end has are left out
 * @source   loss is what goes in less what comes out: Hranac, "Loss", quoting SCTE 270
 */
export function spanReadings(
  received: readonly LevelRow[],
  sent: Sent,
  lineUp: readonly LineUpEntry[] | null,
): readonly SpanReading[] {
  const used = chooseRows(received, { shape: 'cable', lineUp }).used;
  if (sent.from === 'design')
    return used.map(({ frequencyMhz, levelDbmv }) => ({
      frequencyMhz,
      sentDbmv: targetDbmv(sent.design, frequencyMhz),
      receivedDbmv: levelDbmv,
    }));
  const went = chooseRows(sent.rows, { shape: 'cable', lineUp }).used;
  const readings: SpanReading[] = [];
  let at = 0;
  for (const { frequencyMhz, levelDbmv } of used) {
    while (at < went.length && (went[at]?.frequencyMhz ?? Infinity) < frequencyMhz - SAME_CARRIER_MHZ) at++;
    const other = went[at];
    if (other !== undefined && Math.abs(other.frequencyMhz - frequencyMhz) <= SAME_CARRIER_MHZ)
      readings.push({ frequencyMhz, sentDbmv: other.levelDbmv, receivedDbmv: levelDbmv });
  }
  return readings;
}
