import type { Position, Station } from '../files/station.ts';
import type { Truck } from '../files/truck.ts';
import type { Choice } from './objective.ts';
import { SAME_DB } from './rank.ts';
import { keyAt, stockOf } from './stock.ts';

/** A part that a choice wants and the truck does not hold. */
export type LackedPart = Readonly<{
  kind: Position['kind'];
  topMhz?: number;
  valueDb: number;
  count: number;
}>;
/** What parts that the truck lacks would have given. */
export type BeyondTruck = Readonly<{
  /** The exact least worst channel that the kit could give, whatever the truck holds, dB. */
  bestWorstDb: number;
  /** The fewest changes that come as near as the slack to that. */
  choice: Choice;
  lacks: readonly LackedPart[];
  /** "With an equalizer 14, which the truck lacks: 0.3 dB." */
  text: string;
}>;

const words: Readonly<Record<Position['kind'], readonly [one: string, many: string]>> = {
  pad: ['a pad', 'pads'],
  equalizer: ['an equalizer', 'equalizers'],
  'cable-simulator': ['a cable simulator', 'cable simulators'],
};

/**
 * What a choice needs beyond the truck; a part that the choice itself pulls out is at hand again.
 * @param choice  its changes name positions of the station, values in dB
 * @returns  the parts with how many are short, in the order of the changes; empty where the truck holds them all
 * @source   a part taken out of the station is at hand again: common practice, no published source
 */
export function lackedParts(
  station: Station,
  truck: Truck,
  { changes }: Pick<Choice, 'changes'>,
): LackedPart[] {
  const left = new Map(stockOf(truck));
  const wanted = new Map<string, LackedPart>();
  const at = (name: string) => station.positions.find((position) => position.name === name);
  for (const { position: name, from } of changes) {
    const position = at(name);
    if (position === undefined) continue;
    const key = keyAt(position, from);
    left.set(key, (left.get(key) ?? 0) + 1);
  }
  for (const { position: name, to } of changes) {
    const position = at(name);
    if (position === undefined) continue;
    const key = keyAt(position, to);
    const count = left.get(key) ?? 0;
    left.set(key, count - 1);
    if (count > 0) continue;
    wanted.set(key, {
      kind: position.kind,
      ...(position.kind === 'pad' ? {} : { topMhz: position.topMhz }),
      valueDb: to,
      count: (wanted.get(key)?.count ?? 0) + 1,
    });
  }
  return [...wanted.values()];
}

/** "an equalizer 14", "2 pads 3"; the top frequency only where the truck holds that value for another one. */
function partWords({ kind, topMhz, valueDb, count }: LackedPart, truck: Truck): string {
  const [one, many] = words[kind];
  const isAmbiguous = truck.parts.some(
    (part) => part.kind === kind && part.kind !== 'pad' && part.valueDb === valueDb && part.topMhz !== topMhz,
  );
  return `${count === 1 ? one : `${count} ${many}`} ${valueDb}${isAmbiguous ? ` for ${topMhz} MHz` : ''}`;
}

const listed = (parts: readonly string[]): string =>
  parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;

/**
 * What the parts that the truck lacks would have given, where that is worth a word: at least the slack more than the best
 * that can be done with what is there, or a stage input inside its limits that is not inside them now.
 * @param choice       of the same search without the stock: the fewest changes within the slack of its exact best
 * @param bestWorstDb  that exact best's worst channel, dB
 * @param within       the exact best with what the truck holds, dB; null where it can't meet the stage input
 * @param slackDb      what a further change must buy, dB
 * @returns  the choice, the parts that are short and a sentence; null where it buys too little or nothing is short
 * @throws   RangeError when a figure is no number: both come from a search
 * @source   contract, section 3, "propose, exactly" without stock; what is worth a word: its slack
 */
export function beyondTruck(
  station: Station,
  truck: Truck,
  unlimited: Readonly<{ choice: Choice; bestWorstDb: number }>,
  within: Readonly<{ bestWorstDb: number | null; slackDb: number }>,
): BeyondTruck | null {
  const { choice, bestWorstDb } = unlimited;
  const wasDb = within.bestWorstDb ?? Number.MAX_VALUE;
  if (![bestWorstDb, choice.worstDb, wasDb, within.slackDb].every(Number.isFinite))
    throw new RangeError('the worst channel of a search is no number');
  if (wasDb - choice.worstDb < within.slackDb - SAME_DB) return null;
  const lacks = lackedParts(station, truck, choice);
  if (lacks.length === 0) return null;
  const parts = listed(lacks.map((part) => partWords(part, truck)));
  return {
    bestWorstDb,
    choice,
    lacks,
    text: `With ${parts}, which the truck lacks: ${choice.worstDb.toFixed(1)} dB.`,
  };
}
