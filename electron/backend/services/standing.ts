import type { Standing } from '../../../core/bridge/records.ts';
import { rowsAtPort } from '../../../core/line/port-level.ts';
import { standingAgainstDesign } from '../../../core/line/standing.ts';
import { refusalLine } from '../../../core/result.ts';
import type { Archive } from '../archive/open.ts';
import { fromThousandths, momentOf } from '../archive/quantities.ts';
import { readingOf } from './as-records.ts';
import { type Designs, portOf } from './designs.ts';

export type Standings = Readonly<{
  /** Of an ended sweep at a port with a design line, against the design that was the newest when it was read. */
  of(sweepId: string): Standing | null;
}>;

/** Each sweep is judged once: neither its readings nor its design revision ever change after its end. */
export function createStandings(archive: Archive, designs: Designs): Standings {
  const judged = new Map<string, Standing>();

  const judge = (sweepId: string): Standing | null => {
    const row = archive.sweeps.byId(sweepId);
    if (row === undefined || row.state === null) return null;
    const { design } = portOf(designs.at(row.stationId, row.revision).station, row.portName);
    if (design === undefined) return null;
    const readings = archive.sweeps.readings(row.seq).map(readingOf);
    const result = standingAgainstDesign(rowsAtPort(readings, fromThousandths(row.testPointLossMdb)), design);
    const facts = {
      sweepId,
      at: momentOf(row.startedAtMs),
      purpose: row.purpose,
      state: row.state,
    };
    if (!result.ok)
      return { ...facts, verdict: null, headline: refusalLine(result), worstDb: null, worstMhz: null };
    const { verdict, headline, worst } = result.value;
    return { ...facts, verdict, headline, worstDb: worst.deviationDb, worstMhz: worst.frequencyMhz };
  };

  return {
    of(sweepId) {
      const known = judged.get(sweepId);
      if (known !== undefined) return known;
      const standing = judge(sweepId);
      if (standing !== null) judged.set(sweepId, standing);
      return standing;
    },
  };
}
