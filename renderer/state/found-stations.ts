import type { StationRow } from '../../core/bridge/records.ts';

/** The stations whose name, id or finding has every word, in the order of the list. */
export function foundStations(rows: readonly StationRow[], text: string): readonly StationRow[] {
  const words = text
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== '');
  if (words.length === 0) return rows;
  return rows.filter(({ name, stationId, standing }) => {
    const within = `${name} ${stationId} ${standing?.headline ?? ''}`.toLowerCase();
    return words.every((word) => within.includes(word));
  });
}
