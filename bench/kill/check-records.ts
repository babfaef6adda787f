import type { Database } from 'better-sqlite3';
import { Truck } from '../../core/files/truck.ts';
import { countIn } from '../../core/files/truck-moves.ts';
import type { Archive } from '../../electron/backend/archive/open.ts';
import type { Ledger } from './ledger.ts';

/** The rows of a table by a key; both as text. */
function textBy(db: Database, key: string, value: string, table: string): ReadonlyMap<string, string | null> {
  const rows = db
    .prepare<[], [string, string | null]>(`SELECT CAST(${key} AS TEXT), ${value} FROM ${table}`)
    .raw()
    .all();
  return new Map(rows);
}

/** What was acknowledged of one kind and is not there, or says otherwise. */
function lossesOf(
  what: string,
  told: ReadonlyMap<string | number, string>,
  there: ReadonlyMap<string, string | null>,
): string[] {
  return [...told].flatMap(([key, value]) => {
    const kept = there.get(String(key));
    if (kept === undefined) return [`${what} ${key} is gone`];
    return kept === value ? [] : [`${what} ${key} says ${kept}, and ${value} was kept`];
  });
}

/** One of the pads 1 and 2 is in the station and the other in the truck, whenever the program was killed. */
function truckLosses(archive: Archive, { trucks, fittings }: Ledger): string[] {
  const [fitting] = fittings.values();
  const truck = archive.settings.newestTruck();
  if (fitting === undefined || trucks.size === 0) return [];
  const isIn = archive.parts.fittedSinceDesign(fitting.stationId).at(-1)?.toValue ?? Number.NaN;
  const stock = Truck.parse(JSON.parse(truck?.json ?? 'null'));
  const pads = [isIn, 3 - isIn].map((value) => countIn(stock, { kind: 'pad' }, value));
  return pads[0] === 0 && pads[1] === 1 ? [] : [`pad ${isIn} is in the station, and the truck has ${pads}`];
}

/** Stations, visits, settings, notes, the truck, fittings, voids and corrections against what was told of them. */
export function recordLosses(archive: Archive, db: Database, ledger: Ledger): string[] {
  const { stations, visits, visitEnds, settings, notes, trucks, fittings, voids, corrections } = ledger;
  return [
    ...lossesOf('station', stations, textBy(db, "station_id || ' ' || revision", 'name', 'design_revision')),
    ...lossesOf('visit', visits, textBy(db, 'visit_id', 'operator', 'visit')),
    ...lossesOf(
      'end of visit',
      visitEnds,
      textBy(db, 'v.visit_id', 'e.note', 'visit_end e JOIN visit v ON v.seq = e.visit'),
    ),
    ...lossesOf('settings', settings, textBy(db, 'revision', 'settings', 'settings_revision')),
    ...lossesOf('notes', notes, textBy(db, "station_id || ' ' || revision", 'notes', 'notes_revision')),
    ...lossesOf('truck', trucks, textBy(db, 'revision', 'truck', 'truck_revision')),
    ...lossesOf(
      'fitting',
      new Map([...fittings].map(([id, { toValue }]) => [id, String(toValue)])),
      textBy(db, 'fitting_id', 'CAST(CAST(to_value AS INTEGER) AS TEXT)', 'fitting'),
    ),
    ...lossesOf(
      'void of sweep',
      voids,
      textBy(db, 's.sweep_id', 'w.reason', 'sweep_void w JOIN sweep s ON s.seq = w.sweep'),
    ),
    ...lossesOf(
      'correction',
      new Map([...corrections].map(([id, { sweepId, reason }]) => [id, `${sweepId} ${reason}`])),
      textBy(
        db,
        'n.sweep_id',
        "o.sweep_id || ' ' || c.reason",
        'sweep_correction c JOIN sweep n ON n.seq = c.sweep JOIN sweep o ON o.seq = n.corrects',
      ),
    ),
    ...truckLosses(archive, ledger),
  ];
}
