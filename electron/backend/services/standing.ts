import type { Standing } from '../../../core/bridge/records.ts';
import type { StoredNotes, StoredSettings } from '../../../core/bridge/settings-calls.ts';
import { refusalLine } from '../../../core/result.ts';
import type { Archive } from '../archive/open.ts';
import { momentOf } from '../archive/quantities.ts';
import type { SweepRow } from '../archive/sweeps.ts';
import type { Designs } from './designs.ts';
import { judgeSweep } from './judge-sweep.ts';
import type { SettingsService } from './settings.ts';

export type Standings = Readonly<{
  /** What a standing rests on beside the sweep and its station: the settings' revision and this program. */
  judgedBy(): string;
  /** Of an ended sweep at a port with a design line, against the design that was the newest when it was read. */
  of(sweepId: string): Standing | null;
}>;

/**
 * Each sweep is judged once for each revision of what it is judged by: neither its readings nor its design revision ever
 * change after its end, but the settings and the station's notes may.
 */
export function createStandings(
  archive: Archive,
  designs: Designs,
  settings: Pick<SettingsService, 'read' | 'readNotes'>,
): Standings {
  const judged = new Map<string, Readonly<{ by: string; standing: Standing }>>();

  const judge = (row: SweepRow, by: StoredSettings, of: StoredNotes): Standing | null => {
    const { sweepId } = row;
    if (row.state === null) return null;
    const result = judgeSweep(archive, designs, row, by, of);
    if (result === null) return null;
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
    judgedBy: () => `${archive.program} ${settings.read().revision}`,
    of(sweepId) {
      const row = archive.sweeps.byId(sweepId);
      if (row === undefined) return null;
      const now = settings.read();
      const notes = settings.readNotes(row.stationId);
      const by = `${now.revision} ${notes.revision}`;
      const known = judged.get(sweepId);
      if (known?.by === by) return known.standing;
      const standing = judge(row, now, notes);
      if (standing !== null) judged.set(sweepId, { by, standing });
      return standing;
    },
  };
}
