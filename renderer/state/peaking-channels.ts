import type { Port, Station } from '../../core/files/station.ts';
import { targetDbmv } from '../../core/line/design-line.ts';
import { bandOf } from './read-plans.ts';

export type PeakingChannel = Readonly<{ key: string; name: string; frequencyMhz: number }>;

/** The channels that one peaks at a port: the pilot, the top and the low end of its band. */
export function peakingChannels(station: Station, port: Port): readonly PeakingChannel[] {
  const band = bandOf(station, port.name);
  const forward = port.direction === 'forward';
  const topMhz = forward ? (station.stageInput?.atMhz ?? band?.highMhz) : band?.highMhz;
  const pilotMhz = forward ? station.gainControl?.pilotMhz : undefined;
  return [
    ...(pilotMhz === undefined ? [] : [{ key: 'pilot', name: 'Pilot', frequencyMhz: pilotMhz }]),
    ...(topMhz === undefined ? [] : [{ key: 'top', name: 'Top', frequencyMhz: topMhz }]),
    ...(band === null ? [] : [{ key: 'low', name: 'Low end', frequencyMhz: band.lowMhz }]),
  ];
}

/** What the design asks for there, dBmV at the port; null outside its band or without a design. */
export function designAt({ design }: Port, frequencyMhz: number): number | null {
  if (design === undefined || frequencyMhz < design.lowMhz || frequencyMhz > design.highMhz) return null;
  return targetDbmv(design, frequencyMhz);
}
