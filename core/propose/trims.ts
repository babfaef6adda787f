import type { Design } from '../files/station.ts';
import type { Trim } from '../files/station-notes.ts';
import { positionOf } from '../line/position.ts';
import { type Refusal, refuse } from '../result.ts';
import { leastWorst } from './least-worst.ts';

/** One trim to turn after the plug-ins are in: by how much, read at which frequency. */
export type TrimMove = Readonly<{
  name: string;
  kind: Trim['kind'];
  atMhz: number;
  /** dB, above 0 for up. */
  byDb: number;
  /** "turn down 1.3 dB at 867 MHz" */
  text: string;
}>;
export type TrimmedOff = Readonly<{ moves: readonly TrimMove[]; offDb: Float64Array; worstDb: number }>;

/** A turn must buy at least this: less than a meter's last digit is not worth a hand on a trim. */
export const TRIM_WORTH_DB = 0.1;
/** A move smaller than this can't be seen on a meter. */
const SEEN_DB = 0.05;

const hz = (frequencyMhz: number): string => `${Math.round(frequencyMhz * 1000) / 1000} MHz`;

const MOST_TRIMS = 4;

/**
 * What makes no sense of some trims, for trims that did not come through the notes file's schema.
 * @returns  a refusal that names the trim, or null when all are fit
 * @source   the notes' format is this program's own
 */
export function unfitTrim(trims: readonly Trim[]): Refusal<'bad-value'> | null {
  if (trims.length > MOST_TRIMS)
    return refuse('bad-value', `${trims.length} trims`, `name ${MOST_TRIMS} at most`);
  for (const { name, rangeDb, atMhz } of trims) {
    const [leastDb, mostDb] = rangeDb;
    if (!(leastDb >= -1000 && mostDb <= 1000 && leastDb <= 0 && mostDb >= 0))
      return refuse('bad-value', `trim "${name}", range`, 'give dB down (0 or less) and up (0 or more)');
    if (!(atMhz > 0 && atMhz < Infinity))
      return refuse('bad-value', `trim "${name}", ${atMhz} MHz`, 'give the frequency where it is read');
  }
  return null;
}

/**
 * What 1 dB of a trim does along the port's band: a gain trim the same everywhere; a slope trim full at its own
 * frequency and nothing at the design frequency farther from it, straight in the design's shape between and beyond.
 * @param trim            kind and the frequency where its full effect is, MHz
 * @param frequenciesMhz  MHz each
 * @returns  dB per dB at each frequency
 * @source   common practice, no published source
 */
export function trimEffect(trim: Trim, design: Design, frequenciesMhz: readonly number[]): Float64Array {
  if (trim.kind === 'gain') return new Float64Array(frequenciesMhz.length).fill(1);
  const { shape, lowMhz, highMhz } = design;
  const at = positionOf(trim.atMhz, shape, lowMhz, highMhz);
  const pivot = at >= 0.5 ? 0 : 1;
  return Float64Array.from(
    frequenciesMhz,
    (frequencyMhz) => (positionOf(frequencyMhz, shape, lowMhz, highMhz) - pivot) / (at - pivot),
  );
}

/**
 * How far to turn the trims once the plug-ins are in, so that the worst channel is least: exact, within their ranges.
 * @param offDb           level less target at each row with the plug-ins in, dB
 * @param frequenciesMhz  MHz, as many
 * @param trims           those that move this port
 * @returns  the moves, and level less target with them; null when there is no trim or it buys less than 0.1 dB
 * @source   see `leastWorst`; what is worth a turn: common practice, no published source
 */
export function trimmed(
  offDb: Float64Array,
  frequenciesMhz: readonly number[],
  design: Design,
  trims: readonly Trim[],
): TrimmedOff | null {
  if (trims.length === 0) return null;
  const effects = trims.map((trim) => trimEffect(trim, design, frequenciesMhz));
  // Trims that do the same are turned as one, so that the answer does not hang on their number.
  const like = trims.map((trim, k) =>
    trims.findIndex(
      (other) => other.kind === trim.kind && (trim.kind === 'gain' || other.atMhz === trim.atMhz),
    ) === k
      ? trims.flatMap((other, j) =>
          other.kind === trim.kind && (trim.kind === 'gain' || other.atMhz === trim.atMhz) ? [j] : [],
        )
      : [],
  );
  const groups = like.filter((members) => members.length > 0);
  const rangeOf = (members: readonly number[]): [number, number] => [
    members.reduce((sum, j) => sum + (trims[j]?.rangeDb[0] ?? 0), 0),
    members.reduce((sum, j) => sum + (trims[j]?.rangeDb[1] ?? 0), 0),
  ];
  const solved = leastWorst(
    offDb,
    groups.map((members) => effects[members[0] ?? 0] ?? new Float64Array(offDb.length)),
    groups.map(rangeOf),
  );
  const nowDb = offDb.reduce((worst, off) => Math.max(worst, Math.abs(off)), 0);
  if (nowDb - solved.worstDb < TRIM_WORTH_DB) return null;
  const byDb = trims.map(() => 0);
  groups.forEach((members, g) => {
    let leftDb = solved.byDb[g] ?? 0;
    for (const j of members) {
      const [leastDb, mostDb] = trims[j]?.rangeDb ?? [0, 0];
      const taken = Math.min(mostDb, Math.max(leastDb, leftDb));
      byDb[j] = taken;
      leftDb -= taken;
    }
  });
  const moves = trims.flatMap(({ name, kind, atMhz }, j): TrimMove[] => {
    const by = byDb[j] ?? 0;
    if (Math.abs(by) < SEEN_DB) {
      byDb[j] = 0;
      return [];
    }
    const text = `turn ${by < 0 ? 'down' : 'up'} ${Math.abs(by).toFixed(1)} dB at ${hz(atMhz)}`;
    return [{ name, kind, atMhz, byDb: by, text }];
  });
  const left = offDb.map((off, i) => byDb.reduce((sum, by, j) => sum + by * (effects[j]?.[i] ?? 0), off));
  return { moves, offDb: left, worstDb: left.reduce((worst, off) => Math.max(worst, Math.abs(off)), 0) };
}
