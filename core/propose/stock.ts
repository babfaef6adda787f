import type { PluggedIn, Position } from '../files/station.ts';
import type { Truck } from '../files/truck.ts';
import type { FreePosition } from './objective.ts';
import { SAME_DB } from './rank.ts';

/** Different sums beyond this would fill the memory of a laptop. */
const MOST_STATES = 2e5;

type PartLike = Readonly<{ kind: Position['kind']; topMhz?: number; valueDb: number }>;

/**
 * What makes two plug-ins the same part: kind, top frequency, value. A 0 dB part is a part like any other.
 * @returns  a key, equal for equal parts
 * @source   common practice, no published source
 */
export const partKey = ({ kind, topMhz, valueDb }: PartLike): string =>
  kind === 'pad' ? `${kind}/${valueDb}` : `${kind}/${topMhz ?? ''}/${valueDb}`;

/**
 * The key of a value at a position.
 * @param valueDb  dB, as the label says
 * @returns  as partKey
 * @source   common practice, no published source
 */
export const keyAt = (position: Position, valueDb: number): string =>
  partKey(
    position.kind === 'pad'
      ? { kind: position.kind, valueDb }
      : { kind: position.kind, topMhz: position.topMhz, valueDb },
  );

/** How many of each part are at hand, by key. */
export type Stock = ReadonlyMap<string, number>;

/**
 * The stock of a truck by part.
 * @source   the truck format is this program's own
 */
export const stockOf = (truck: Truck): Stock =>
  new Map(truck.parts.map((part) => [partKey(part), part.count]));

/**
 * Which values can ever be had at a position: what is in, what the truck holds, and what another position may give up.
 * @param position   one of them
 * @param positions  all that may be changed
 * @param pluggedIn  what is in now, dB
 * @returns  the values (dB) of `valuesDb` that are left
 * @source   a part taken out of the station is at hand again: common practice, no published source
 */
export function valuesAtHand(
  position: Position,
  valuesDb: readonly number[],
  positions: readonly Position[],
  pluggedIn: PluggedIn,
  stock: Stock,
): number[] {
  const others = new Set(
    positions.flatMap((other) => {
      const nowDb = pluggedIn[other.name];
      return other.name === position.name || nowDb === undefined ? [] : [keyAt(other, nowDb)];
    }),
  );
  return valuesDb.filter((valueDb) => {
    const key = keyAt(position, valueDb);
    return valueDb === pluggedIn[position.name] || (stock.get(key) ?? 0) > 0 || others.has(key);
  });
}

/** The stock in the numbers of the search: how many of each part that may run short, and what each candidate takes. */
export type Scarce = Readonly<{
  counts: readonly number[];
  /** Per position and candidate, how many of each such part it takes (1) or gives back (-1). */
  uses: readonly (readonly (readonly number[])[])[];
}>;

/**
 * The parts that more positions want than there are, and what every candidate takes of them.
 * @param wanted  per position what it is and its candidates' values, dB; `nowDb` is in
 * @returns  counts and uses; without any such part both are empty lists
 * @source   common practice, no published source
 */
export function scarceParts(
  wanted: readonly Readonly<{ position: Position; valuesDb: readonly number[]; nowDb: number }>[],
  stock: Stock,
): Scarce {
  const takers = new Map<string, number>();
  for (const { position, valuesDb, nowDb } of wanted)
    for (const valueDb of valuesDb)
      if (valueDb !== nowDb) {
        const key = keyAt(position, valueDb);
        takers.set(key, (takers.get(key) ?? 0) + 1);
      }
  const scarce = [...takers].filter(([key, count]) => count > (stock.get(key) ?? 0)).map(([key]) => key);
  return {
    counts: scarce.map((key) => stock.get(key) ?? 0),
    uses: wanted.map(({ position, valuesDb, nowDb }) =>
      valuesDb.map((valueDb) =>
        valueDb === nowDb
          ? scarce.map(() => 0)
          : scarce.map(
              (key) => (key === keyAt(position, valueDb) ? 1 : 0) - (key === keyAt(position, nowDb) ? 1 : 0),
            ),
      ),
    ),
  };
}

/**
 * Whether a sum of uses is within the stock.
 * @source   common practice, no published source
 */
export const isWithinStock = (use: readonly number[], counts: readonly number[]): boolean => {
  for (let k = 0; k < counts.length; k++) if ((use[k] ?? 0) > (counts[k] ?? 0)) return false;
  return true;
};

/**
 * Two uses together.
 * @source   definition
 */
export const usesTogether = (a: readonly number[], b: readonly number[]): readonly number[] =>
  a.length === 0 ? a : a.map((use, k) => use + (b[k] ?? 0));

/**
 * The different sums of losses up to the stage input that the stock allows.
 * @param free    positions with their losses at the stage input's frequency, dB, and what each candidate uses
 * @param counts  the stock
 * @returns  dB; null when there are too many to try
 * @source   common practice, no published source
 */
export function stockedSumsDb(free: readonly FreePosition[], counts: readonly number[]): number[] | null {
  let states = new Map<string, Readonly<{ sumDb: number; use: readonly number[] }>>([
    ['', { sumDb: 0, use: counts.map(() => 0) }],
  ]);
  for (const { inputLossDb, use } of free) {
    if (states.size * inputLossDb.length > 10 * MOST_STATES) return null;
    const next: typeof states = new Map();
    for (const state of states.values())
      inputLossDb.forEach((lossDb, index) => {
        const sumDb = state.sumDb + lossDb;
        const together = usesTogether(state.use, use?.[index] ?? []);
        next.set(`${Math.round(sumDb / SAME_DB)}/${together.join()}`, { sumDb, use: together });
      });
    if (next.size > MOST_STATES) return null;
    states = next;
  }
  const allowed = [...states.values()].filter(({ use }) => isWithinStock(use, counts));
  return [...new Set(allowed.map(({ sumDb }) => sumDb))];
}
