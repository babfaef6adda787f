import type { PluggedIn, Station } from '../files/station.ts';
import { lossDb } from '../plug-ins/loss.ts';

export type FittedSlope = Readonly<{
  /** The equalizers and cable simulators that the port's signal has passed, in its order. */
  parts: readonly Readonly<{
    position: string;
    kind: 'equalizer' | 'cable-simulator';
    valueDb: number;
    /** dB more loss at the low frequency than at the high one; below 0 for a cable simulator. */
    slopeDb: number;
  }>[];
  /** All together, dB. */
  slopeDb: number;
}>;

/**
 * How much slope the plug-ins of a port's path give back.
 * @param portName  one of the station's ports
 * @param lowMhz    MHz, above 0
 * @param highMhz   MHz, above lowMhz
 * @returns  the parts and their sum in dB; nothing where the port is not known
 * @source   contract, section 2, "Loss of a plug-in at f"
 */
export function fittedSlope(
  station: Station,
  portName: string,
  pluggedIn: PluggedIn,
  lowMhz: number,
  highMhz: number,
): FittedSlope {
  const through = station.ports.find(({ name }) => name === portName)?.through ?? [];
  const parts = through.flatMap((named) => {
    const position = station.positions.find(({ name }) => name === named);
    if (position === undefined || position.kind === 'pad') return [];
    const valueDb = pluggedIn[named] ?? position.installed;
    const slopeDb = lossDb(position, valueDb, lowMhz) - lossDb(position, valueDb, highMhz);
    return [{ position: named, kind: position.kind, valueDb, slopeDb }];
  });
  return { parts, slopeDb: parts.reduce((sum, part) => sum + part.slopeDb, 0) };
}
