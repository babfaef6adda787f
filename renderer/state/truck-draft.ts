import type { KitRow } from '../../core/bridge/settings-calls.ts';
import type { Truck, TruckPart } from '../../core/files/truck.ts';

/** One kind of part as the truck's grid shows it: every value that a kit names or the truck holds, with its count. */
export type TruckRow = Readonly<{
  key: string;
  kind: KitRow['kind'];
  topMhz: number | null;
  values: readonly Readonly<{ valueDb: number; count: number; toleranceDb: number | null }>[];
  total: number;
}>;

export const EMPTY_TRUCK: Truck = { format: 'tiltwright-truck/1', parts: [] };

const topOf = (part: TruckPart): number | null => (part.kind === 'pad' ? null : part.topMhz);
const keyOf = (kind: string, topMhz: number | null): string => `${kind} ${topMhz ?? ''}`;

/** How far a part may lie off its label, dB; null where nothing is said of it. */
const toleranceOf = (truck: Truck, kind: KitRow['kind'], topMhz: number | null, valueDb: number) =>
  truck.parts.find((part) => part.kind === kind && topOf(part) === topMhz && part.valueDb === valueDb)
    ?.toleranceDb ?? null;

/** The kinds of parts, those of the kits first in their order, then what only the truck holds. */
export function truckRows(kit: readonly KitRow[], truck: Truck): readonly TruckRow[] {
  const rows = new Map<
    string,
    { kind: KitRow['kind']; topMhz: number | null; counts: Map<number, number> }
  >();
  const rowOf = (kind: KitRow['kind'], topMhz: number | null) => {
    const key = keyOf(kind, topMhz);
    const row = rows.get(key) ?? { kind, topMhz, counts: new Map<number, number>() };
    rows.set(key, row);
    return row;
  };
  for (const { kind, topMhz, valuesDb } of kit)
    for (const valueDb of valuesDb) rowOf(kind, topMhz).counts.set(valueDb, 0);
  for (const part of truck.parts) rowOf(part.kind, topOf(part)).counts.set(part.valueDb, part.count);
  return [...rows].map(([key, { kind, topMhz, counts }]) => ({
    key,
    kind,
    topMhz,
    values: [...counts]
      .sort(([a], [b]) => a - b)
      .map(([valueDb, count]) => ({
        valueDb,
        count,
        toleranceDb: toleranceOf(truck, kind, topMhz, valueDb),
      })),
    total: [...counts.values()].reduce((sum, count) => sum + count, 0),
  }));
}

type OfKind = Pick<TruckRow, 'kind' | 'topMhz'>;

/** The truck with one part said anew; a part that it does not know yet is added with none of it there. */
function withPart(
  truck: Truck,
  row: OfKind,
  valueDb: number,
  change: Partial<Pick<TruckPart, 'count' | 'toleranceDb'>>,
): Truck {
  const at = truck.parts.findIndex(
    (part) => part.kind === row.kind && topOf(part) === row.topMhz && part.valueDb === valueDb,
  );
  const there = truck.parts[at];
  if (there !== undefined) return { ...truck, parts: truck.parts.with(at, { ...there, ...change }) };
  const added = { valueDb, count: 0, ...change };
  if (row.kind === 'pad') return { ...truck, parts: [...truck.parts, { kind: 'pad', ...added }] };
  if (row.topMhz === null) return truck;
  const { kind, topMhz } = row;
  return { ...truck, parts: [...truck.parts, { kind, topMhz, ...added }] };
}

/** The truck with another count of one part; its tolerance stays. */
export const withCount = (truck: Truck, row: OfKind, valueDb: number, count: number): Truck =>
  withPart(truck, row, valueDb, { count });

/** The truck with what a part may lie off its label by: one value, or every value of the kind. */
export const withTolerance = (
  truck: Truck,
  row: Pick<TruckRow, 'kind' | 'topMhz' | 'values'>,
  valueDb: number | null,
  toleranceDb: number,
): Truck =>
  row.values
    .filter((one) => valueDb === null || one.valueDb === valueDb)
    .reduce((said, one) => withPart(said, row, one.valueDb, { toleranceDb }), truck);
