import type { ScenarioFault } from '../files/scenario.ts';
import { cableLossDb } from './cable.ts';

/**
 * What one fault takes away at a frequency; a missing carrier is no loss and gives 0 here.
 * @param frequencyMhz  MHz, above 0
 * @returns  dB, a loss is positive; a ripple swings to both sides of 0. A notch is a bell whose width is that at half
 *           of its depth; a roll-off grows with the square of the way from where it begins to the band's edge.
 * @source   common practice, no published source
 */
export function faultLossDb(fault: ScenarioFault, frequencyMhz: number): number {
  switch (fault.kind) {
    case 'ripple':
      return (fault.peakToPeakDb / 2) * Math.cos((2 * Math.PI * frequencyMhz) / fault.periodMhz);
    case 'notch':
      return fault.depthDb * 2 ** -(((2 * (frequencyMhz - fault.centerMhz)) / fault.widthMhz) ** 2);
    case 'rolloff': {
      const way = (frequencyMhz - fault.fromMhz) / (fault.edgeMhz - fault.fromMhz);
      return fault.depthDb * Math.max(0, way) ** 2;
    }
    case 'missing':
      return 0;
    case 'extra-cable':
      return cableLossDb(fault, frequencyMhz);
  }
}
