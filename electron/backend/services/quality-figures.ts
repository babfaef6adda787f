import { z } from 'zod';
import type { StoredNotes, StoredSettings } from '../../../core/bridge/settings-calls.ts';
import type { SweepFigures } from '../../../core/drift/figures.ts';
import { refusalLine } from '../../../core/result.ts';
import type { Archive } from '../archive/open.ts';
import type { QualitySweepRow } from '../archive/quality-queries.ts';
import { fromThousandths, maybe } from '../archive/quantities.ts';
import type { Designs } from './designs.ts';
import { judgeSweep } from './judge-sweep.ts';
import type { SettingsService } from './settings.ts';

type Figures = Pick<SweepFigures, 'verdict' | 'levelDb' | 'tiltDb' | 'flatnessDb' | 'worstDb' | 'worstMhz'>;
/** What a sweep came to, or why it came to nothing. */
export type FiguresOf =
  | Readonly<{ ok: true; figures: Figures; headline: string }>
  | Readonly<{ ok: false; why: string }>;

export type FigureBook = Readonly<{
  /** For one look at many sweeps: settings are read once, notes once a station. */
  at(): Readonly<{ of(row: QualitySweepRow): FiguresOf }>;
}>;

/** So many sweeps are remembered; each is a few hundred bytes, and an older one is judged again in a tenth of a millisecond. */
const MOST_REMEMBERED = 250_000;

/**
 * What each sweep came to, judged once for each revision of what it is judged by: its readings and its design never change, the
 * settings and the station's notes may.
 */
export function createFigureBook(
  archive: Archive,
  designs: Designs,
  settings: Pick<SettingsService, 'read' | 'readNotes'>,
): FigureBook {
  const known = new Map<number, Readonly<{ by: string; found: FiguresOf }>>();

  const judged = (row: QualitySweepRow, by: StoredSettings, notes: StoredNotes): FiguresOf => {
    const result = judgeSweep(archive, designs, row, by, notes);
    if (result === null) return { ok: false, why: 'its port had no design then' };
    if (!result.ok) return { ok: false, why: refusalLine(result) };
    const { verdict, levelHigh, tilt, flatness, worst, headline } = result.value;
    return {
      ok: true,
      headline,
      figures: {
        verdict,
        levelDb: levelHigh.deviationDb,
        tiltDb: tilt.deviationDb,
        flatnessDb: flatness.valueDb,
        worstDb: worst.deviationDb,
        worstMhz: worst.frequencyMhz,
      },
    };
  };

  return {
    at() {
      const now = settings.read();
      const noted = archive.quality.notedStations();
      let kept: StoredNotes | null = null;
      const notesOf = (stationId: string): StoredNotes => {
        if (kept?.stationId === stationId) return kept;
        kept = noted.has(stationId)
          ? settings.readNotes(stationId)
          : { stationId, notes: null, revision: 0, changedAt: null };
        return kept;
      };
      return {
        of(row) {
          const notes = notesOf(row.stationId);
          const by = `${now.revision} ${notes.revision}`;
          const before = known.get(row.seq);
          if (before?.by === by) return before.found;
          const found = judged(row, now, notes);
          if (known.size >= MOST_REMEMBERED) known.clear();
          known.set(row.seq, { by, found });
          return found;
        },
      };
    },
  };
}

/** A judged sweep as core follows it; null where it was cut short, came to nothing, or was read for something else. */
export const sweepFigures = (row: QualitySweepRow, found: FiguresOf): SweepFigures | null =>
  found.ok && row.state === 'complete' && row.purpose !== 'check'
    ? {
        sweepId: row.sweepId,
        visitId: row.visitId,
        atMs: row.startedAtMs,
        purpose: row.purpose,
        ambientC: maybe(row.ambientMc, fromThousandths),
        revision: row.revision,
        pluggedIn: pluggedInOf(row),
        ...found.figures,
      }
    : null;

const Values = z.record(z.string(), z.number());

/** Position to value. */
export const pluggedInOf = (row: Pick<QualitySweepRow, 'pluggedIn'>): Readonly<Record<string, number>> =>
  Values.parse(JSON.parse(row.pluggedIn));
