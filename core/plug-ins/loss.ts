import type { Position } from '../files/station.ts';
import { measuredLossDb } from './measured.ts';

/**
 * What one plug-in takes away at one frequency.
 * @param position      what sits there: its kind, top frequency, insertion loss, measured curves
 * @param valueDb       dB, as its label says
 * @param frequencyMhz  MHz, 0 or more
 * @returns  dB, a loss is positive; a measured curve for this value goes before the formula
 * @source   contract, section 2, "Loss of a plug-in at f"
 */
export function lossDb(position: Position, valueDb: number, frequencyMhz: number): number {
  const measured = measuredLossDb(position, valueDb, frequencyMhz);
  if (measured !== null) return measured;
  switch (position.kind) {
    case 'pad':
      return valueDb;
    case 'equalizer':
      if (valueDb === 0) return 0;
      return position.insertionLossDb + valueDb * Math.max(0, 1 - Math.sqrt(frequencyMhz / position.topMhz));
    case 'cable-simulator':
      if (valueDb === 0) return 0;
      return position.insertionLossDb + valueDb * Math.sqrt(frequencyMhz / position.topMhz);
  }
}
