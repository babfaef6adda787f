import type { PluggedIn, Station } from '../files/station.ts';
import { lossDb } from './loss.ts';

/**
 * What all the plug-ins on a path take away together.
 * @param station       its positions
 * @param through       names of the positions that the signal has passed, in any order; one named twice counts twice
 * @param pluggedIn     position name to value in dB
 * @param frequencyMhz  MHz
 * @returns  dB, a loss is positive
 * @throws   RangeError when a name is no position or has no value: the station file is checked, so no person can do that
 * @source   contract, section 2, `through`
 */
export function throughLossDb(
  station: Pick<Station, 'positions'>,
  through: readonly string[],
  pluggedIn: PluggedIn,
  frequencyMhz: number,
): number {
  let sumDb = 0;
  for (const name of through) {
    const position = station.positions.find((candidate) => candidate.name === name);
    const valueDb = pluggedIn[name];
    if (position === undefined || valueDb === undefined)
      throw new RangeError(`nothing is known of what is plugged in at "${name}"`);
    sumDb += lossDb(position, valueDb, frequencyMhz);
  }
  return sumDb;
}
