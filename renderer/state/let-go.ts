import type { State, Store } from './store.ts';

function stationOf({ sheet }: State): string | null {
  if (sheet.at === 'none') return null;
  return sheet.at === 'open' ? sheet.sheet.station.id : sheet.stationId;
}
const reads = ({ run }: State): boolean => run.at === 'starting' || run.at === 'running';

/**
 * Puts a piece of news away once the person goes on: to another screen or station, or to the next sweep. A problem stays until
 * somebody puts it away.
 * @returns  ends it
 */
export const letNewsGo = (store: Store): (() => void) =>
  store.subscribe((now, before) => {
    const { notice } = now;
    if (notice === null || notice.tone !== 'news' || notice !== before.notice) return;
    const moved = now.place !== before.place || stationOf(now) !== stationOf(before);
    if (moved || (reads(now) && !reads(before))) now.noticed(null);
  });
