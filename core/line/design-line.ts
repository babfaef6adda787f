import type { Design } from '../files/station.ts';
import { positionOf } from './position.ts';

/**
 * The level that the system design asks for.
 * @param design        a port's design line, straight in f or in sqrt(f)
 * @param frequencyMhz  MHz, 0 or more; outside low..high the line goes on
 * @returns  dBmV
 * @source   contract, section 2, `design` and `shape`
 */
export const targetDbmv = (design: Design, frequencyMhz: number): number =>
  design.lowDbmv +
  (design.highDbmv - design.lowDbmv) * positionOf(frequencyMhz, design.shape, design.lowMhz, design.highMhz);
