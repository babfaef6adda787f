import type { Paper } from '../../../core/report/document.ts';
import { usualPaper } from '../../../core/words/usual-paper.ts';

const KEY = 'tiltwright-paper/1';

/** The paper that was chosen here last, else the one that is usual where the system's language is spoken. */
export function paperHere(box: Pick<Storage, 'getItem'>, locale: string): Paper {
  try {
    const kept = box.getItem(KEY);
    if (kept === 'a4' || kept === 'letter') return kept;
  } catch {
    // A browser without storage: the usual one, each time.
  }
  return usualPaper(locale);
}

export function keepPaper(box: Pick<Storage, 'setItem'>, paper: Paper): void {
  try {
    box.setItem(KEY, paper);
  } catch {
    // It is asked for again next time.
  }
}
