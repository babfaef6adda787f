import type { StationRow } from '../../core/bridge/records.ts';
import { OUT_OF_SERVICE } from '../parts/service-words.ts';

const isAway = ({ outOfService }: StationRow): boolean => outOfService !== undefined;

/** As a list shows them: those that are out of service below all others. */
export const inServiceFirst = (rows: readonly StationRow[]): readonly StationRow[] =>
  rows.some(isAway) ? [...rows.filter((row) => !isAway(row)), ...rows.filter(isAway)] : rows;

/** The stations whose name, id or finding has every word, in the order of the list. */
export function foundStations(rows: readonly StationRow[], text: string): readonly StationRow[] {
  const words = text
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== '');
  if (words.length === 0) return rows;
  return rows.filter(({ name, stationId, standing, outOfService }) => {
    const within =
      `${name} ${stationId} ${outOfService === undefined ? (standing?.headline ?? '') : `${OUT_OF_SERVICE} ${outOfService}`}`.toLowerCase();
    return words.every((word) => within.includes(word));
  });
}
