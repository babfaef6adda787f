import type { Position } from './station.ts';
import type { Truck, TruckPart } from './truck.ts';

/** A part that was pulled out of a position, and the one that went in instead; dB. */
export type TruckMove = Readonly<{
  position: Pick<Position, 'kind'> & Readonly<{ topMhz?: number }>;
  from: number;
  to: number;
}>;

/** A pad fits every pad position; the others only positions for the same top frequency. */
const topOf = (part: Readonly<{ kind: Position['kind']; topMhz?: number }>): number | null =>
  part.kind === 'pad' ? null : (part.topMhz ?? null);

const kinds: readonly Position['kind'][] = ['pad', 'equalizer', 'cable-simulator'];
const inOrder = (a: TruckPart, b: TruckPart): number =>
  kinds.indexOf(a.kind) - kinds.indexOf(b.kind) || (topOf(a) ?? 0) - (topOf(b) ?? 0) || a.valueDb - b.valueDb;

function partOf(position: TruckMove['position'], valueDb: number, count: number): TruckPart {
  const { kind } = position;
  if (kind === 'pad') return { kind, valueDb, count };
  const topMhz = position.topMhz;
  if (topMhz === undefined) throw new RangeError(`a position for an ${kind} without a top frequency`);
  return { kind, topMhz, valueDb, count };
}

/**
 * How many of one part are in a truck.
 * @param position  what it must fit: its kind and, but for a pad, its top frequency in MHz
 * @param valueDb   dB, as its label says
 * @returns  0 where the truck doesn't list it
 * @source   common practice, no published source
 */
export const countIn = (truck: Truck, position: TruckMove['position'], valueDb: number): number =>
  truck.parts.find(
    (part) =>
      part.kind === position.kind &&
      topOf(part) === topOf(position) &&
      Math.abs(part.valueDb - valueDb) < 1e-9,
  )?.count ?? 0;

/**
 * The truck after parts were changed: what went in is taken out of it, what came out lies in it.
 * @param truck  as it was
 * @param moves  one for each position; dB
 * @returns  the truck, its parts in order of kind, top frequency and value. A part that the truck did not have came from
 *           elsewhere: its count stays 0
 * @throws   RangeError for an equalizer's position without a top frequency: the station file has one
 * @source   common practice, no published source
 */
export function truckAfter(truck: Truck, moves: readonly TruckMove[]): Truck {
  let parts: readonly TruckPart[] = truck.parts;
  const add = (position: TruckMove['position'], valueDb: number, more: 1 | -1) => {
    const at = parts.findIndex(
      (part) =>
        part.kind === position.kind &&
        topOf(part) === topOf(position) &&
        Math.abs(part.valueDb - valueDb) < 1e-9,
    );
    const there = parts[at];
    if (there !== undefined) parts = parts.with(at, { ...there, count: Math.max(0, there.count + more) });
    else if (more > 0) parts = [...parts, partOf(position, valueDb, 1)];
  };
  // What comes out first: the same part may go into another position.
  for (const { position, from } of moves) add(position, from, 1);
  for (const { position, to } of moves) add(position, to, -1);
  return { ...truck, parts: parts.toSorted(inOrder) };
}

/**
 * Every kind of plug-in that some station takes, with every value that a kit names or that is installed.
 * @param positions  of all stations; values in dB, top frequencies in MHz
 * @returns  pads first, then by rising top frequency; values rising, each once
 * @source   common practice, no published source
 */
export function kitOf(
  positions: readonly Position[],
): { kind: Position['kind']; topMhz: number | null; valuesDb: number[] }[] {
  const rows = new Map<string, { kind: Position['kind']; topMhz: number | null; values: Set<number> }>();
  for (const position of positions) {
    const topMhz = topOf(position);
    const key = `${position.kind} ${topMhz}`;
    const row = rows.get(key) ?? { kind: position.kind, topMhz, values: new Set<number>() };
    for (const valueDb of [...position.values, position.installed]) row.values.add(valueDb);
    rows.set(key, row);
  }
  return [...rows.values()]
    .sort((a, b) => kinds.indexOf(a.kind) - kinds.indexOf(b.kind) || (a.topMhz ?? 0) - (b.topMhz ?? 0))
    .map(({ kind, topMhz, values }) => ({ kind, topMhz, valuesDb: [...values].sort((a, b) => a - b) }));
}
