import type { Standing } from '../../../core/bridge/records.ts';
import type { Archive } from '../archive/open.ts';
import type { QualitySweepRow } from '../archive/quality-queries.ts';
import { momentOf } from '../archive/quantities.ts';
import type { Designs } from './designs.ts';
import { createFigureBook, type Look } from './quality-figures.ts';
import type { SettingsService } from './settings.ts';

export type Standings = Readonly<{
  /** What a standing rests on beside the sweep and its station: the settings that count and this program. */
  judgedBy(): string;
  /** For one look at many stations. */
  look(): Look;
}>;

/** How an ended sweep stands, for a list. */
export function standingOf(row: QualitySweepRow, look: Look): Standing {
  const headline = look.words(row);
  const found = look.of(row);
  return {
    sweepId: row.sweepId,
    at: momentOf(row.startedAtMs),
    purpose: row.purpose,
    state: row.state,
    verdict: found.ok ? found.figures.verdict : null,
    headline,
    worstDb: found.ok ? found.figures.worstDb : null,
    worstMhz: found.ok ? found.figures.worstMhz : null,
  };
}

export function createStandings(
  archive: Archive,
  designs: Designs,
  settings: Pick<SettingsService, 'read' | 'readNotes'>,
): Standings {
  const book = createFigureBook(archive, designs, settings);
  return { judgedBy: book.basis, look: book.at };
}
