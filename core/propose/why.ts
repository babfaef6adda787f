import type { Design } from '../files/station.ts';
import type { Choice } from './objective.ts';
import { SAME_DB } from './rank.ts';

/** What a deviation from the design is made of; the largest part is the one to name. */
export type Term = 'level' | 'tilt' | 'shape';
export type Why = Readonly<{
  /** Null where the worst channel is within tolerance: there is nothing to mend. */
  dominant: Term | null;
  /** By how much the fitted line lies off the design at both of its ends alike, dB; 0 where they lie on either side. */
  levelDb: number;
  /** Tilt of the fitted line less that of the design, dB. */
  tiltDb: number;
  /** What no level and no tilt accounts for: half of peak to valley about the fitted line, dB. */
  shapeDb: number;
  text: string;
}>;
/** What is left with the recommended plug-ins, and how much of it none can mend. */
export type Remains = Readonly<{
  worstDb: number;
  /** The worst channel that would be left if level and tilt could be set at will, dB: what only a repair mends. */
  floorDb: number;
  /** The largest part of what is left, null where it is within tolerance. */
  dominant: Term | null;
  /** True where the rest is out of tolerance and even level and tilt at will would leave it so. */
  needsRepair: boolean;
  text: string;
}>;

type Seen = Pick<Choice, 'worstDb' | 'flatnessDb' | 'fit'>;

const db = (valueDb: number): string => Math.abs(valueDb).toFixed(1);

/**
 * The parts of a deviation: level, tilt, shape, each by what it can do to the worst channel.
 * @param seen    worst channel (dB), flatness (dB) and fitted line (dBmV)
 * @param design  the port's design
 * @returns  level and tilt with their signs, half of flatness, dB; dominant is the largest of |level|, what tilt adds to
 *           that at the worse end, and shape
 * @source   common practice, no published source: what both ends share is level, what is left at one is tilt, the rest
 *           is shape
 */
export function termsOf(seen: Seen, design: Design) {
  const lowDb = seen.fit.lowDbmv - design.lowDbmv;
  const highDb = seen.fit.highDbmv - design.highDbmv;
  const sharedDb = lowDb < 0 === highDb < 0 ? Math.min(Math.abs(lowDb), Math.abs(highDb)) : 0;
  const levelDb = lowDb < 0 ? -sharedDb : sharedDb;
  const tiltDb = highDb - lowDb;
  const shapeDb = seen.flatnessDb / 2;
  const sizes: readonly (readonly [Term, number])[] = [
    ['level', Math.abs(levelDb)],
    ['tilt', Math.max(Math.abs(lowDb), Math.abs(highDb)) - sharedDb],
    ['shape', shapeDb],
  ];
  const largest: Term = sizes.reduce((most, one) => (one[1] > most[1] + SAME_DB ? one : most))[0];
  const dominant = seen.worstDb <= design.toleranceDb + SAME_DB ? null : largest;
  return { dominant, levelDb, tiltDb, shapeDb };
}

/**
 * Why a change is proposed: what is wrong now, the largest part first.
 * @param before  the port as it was read
 * @returns  the parts in dB, and one sentence
 * @source   see `termsOf`
 */
export function whyOf(before: Seen, design: Design): Why {
  const terms = termsOf(before, design);
  return { ...terms, text: whyText(terms, before, design) };
}

function whyText(
  { dominant, levelDb, tiltDb, shapeDb }: ReturnType<typeof termsOf>,
  before: Seen,
  design: Design,
) {
  switch (dominant) {
    case null:
      return `Worst channel ${db(before.worstDb)} dB from design, within ${db(design.toleranceDb)} dB.`;
    case 'level':
      return `Level: ${db(levelDb)} dB ${levelDb < 0 ? 'low' : 'high'} at both ends of the band.`;
    case 'tilt':
      return `Tilt: the high end is ${db(tiltDb)} dB too ${tiltDb < 0 ? 'low' : 'high'}.`;
    case 'shape':
      return `Shape: channels lie up to ${db(shapeDb)} dB to each side of their own line.`;
  }
}

/**
 * What is left with the recommended plug-ins, and how much of it no plug-in can mend.
 * @param after    the port with them (and the trims, where there are any)
 * @param floorDb  worst channel with level and tilt at will, dB
 * @returns  the largest part that is left, and a sentence
 * @source   common practice, no published source
 */
export function remainsOf(after: Seen, floorDb: number, design: Design): Remains {
  const { dominant } = termsOf(after, design);
  const needsRepair = dominant !== null && floorDb > design.toleranceDb + SAME_DB;
  const worst = `${db(after.worstDb)} dB left at the worst channel`;
  const text =
    dominant === null
      ? `${worst}, within ${db(design.toleranceDb)} dB.`
      : needsRepair
        ? `${worst}; ${db(floorDb)} dB of it is shape and cannot be mended by plug-ins.`
        : `${worst}, mostly ${dominant}; with level and tilt set at will ${db(floorDb)} dB would be left.`;
  return { worstDb: after.worstDb, floorDb, dominant, needsRepair, text };
}
