import type { Design } from '../files/station.ts';
import { type Refusal, refuse } from '../result.ts';
import { positionOf } from './position.ts';

/**
 * The level that the system design asks for.
 * @param design        a port's design line, straight in f or in sqrt(f)
 * @param frequencyMhz  MHz, 0 or more; outside low..high the line goes on
 * @returns  dBmV
 * @source   contract, section 2, `design` and `shape`
 */
export const targetDbmv = (design: Design, frequencyMhz: number): number =>
  targetAt(design, positionOf(frequencyMhz, design.shape, design.lowMhz, design.highMhz));

/**
 * The same where it is known how far a frequency lies from low to high.
 * @param position  no unit, from `positionOf` with the design's shape and ends
 * @returns  dBmV
 * @source   contract, section 2, `design` and `shape`
 */
export const targetAt = (design: Pick<Design, 'lowDbmv' | 'highDbmv'>, position: number): number =>
  design.lowDbmv + (design.highDbmv - design.lowDbmv) * position;

/** No level on a coaxial network is beyond this, dBmV; beyond it sums would overflow. */
const MOST_DBMV = 200;

/**
 * What makes no sense of a design, for designs that did not come through the station file's schema.
 * @returns  a refusal that names the number, or null when the design is fit
 * @source   contract, section 2, `design`
 */
export function unfitDesign(design: Design): Refusal<'bad-design'> | null {
  const { lowMhz, highMhz, lowDbmv, highDbmv, toleranceDb, flatnessDb } = design;
  const wrong = (where: string, help: string) => refuse('bad-design', `design, ${where}`, help);
  if (!(lowMhz > 0 && highMhz < Infinity && lowMhz < highMhz))
    return wrong(`${lowMhz} to ${highMhz} MHz`, 'the low frequency must lie above 0 and below the high one');
  for (const [name, levelDbmv] of [
    ['lowDbmv', lowDbmv],
    ['highDbmv', highDbmv],
  ] as const)
    if (!(Math.abs(levelDbmv) <= MOST_DBMV)) return wrong(`${name} ${levelDbmv}`, 'give a level in dBmV');
  for (const [name, allowedDb] of [
    ['toleranceDb', toleranceDb],
    ['flatnessDb', flatnessDb],
  ] as const)
    if (!(allowedDb > 0 && allowedDb < Infinity)) return wrong(`${name} ${allowedDb}`, 'give dB above 0');
  return null;
}
