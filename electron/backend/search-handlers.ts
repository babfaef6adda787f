import type { CallName, Handlers } from '../../core/bridge/contract.ts';
import type { Archive } from './archive/open.ts';
import { momentOf, msOf } from './archive/quantities.ts';

type SearchCall = Extract<CallName, `search.${string}`>;

/** Before and after every record. */
const EVER = { fromMs: 0, beforeMs: Number.MAX_SAFE_INTEGER };

/** Joins the search for records to the archive. */
export const joinSearch = (archive: Archive): Pick<Handlers, SearchCall> => ({
  'search.records': async ({ words, days, most }) => {
    const range = days === null ? EVER : { fromMs: msOf(days.from), beforeMs: msOf(days.before) };
    const found = archive.search.find({ words, most, ...range });
    return {
      visits: found.visits.map(({ startedAtMs, sweepId, portName, ...visit }) => ({
        ...visit,
        startedAt: momentOf(startedAtMs),
        sweep: sweepId === null || portName === null ? null : { sweepId, portName },
      })),
      sweeps: found.sweeps.map(({ startedAtMs, source, sourceName, ...sweep }) => ({
        ...sweep,
        fileName: source === 'file' ? sourceName : null,
        startedAt: momentOf(startedAtMs),
      })),
    };
  },
});
