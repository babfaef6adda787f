import type { PluggedIn, Station } from '../files/station.ts';
import type { SignalKind } from '../line/level-row.ts';
import { simulatedKind, simulatedMeterDbmv } from './level.ts';
import { quillmere } from './quillmere.ts';
import { quillmerePlans } from './quillmere-stations.ts';

/** One visit of the demo's past: a routine look, nothing changed. */
export type PastVisit = Readonly<{
  daysAgo: number;
  purpose: 'as-found' | 'as-left';
  ambientC: number;
  note: string;
  readings: readonly Readonly<{ frequencyMhz: number; meterDbmv: number | null; kind: SignalKind | null }>[];
}>;

export type PastStation = Readonly<{
  station: Station;
  portName: string;
  pluggedIn: PluggedIn;
  /** The oldest first. */
  visits: readonly PastVisit[];
}>;

/** Days before the demo is loaded, the weather, and how far the wet connector had come: its ripple in dB, peak to peak. */
const YEARS_OF_SALT = [
  { daysAgo: 1004, ambientC: 11, rippleDb: 0.1 },
  { daysAgo: 897, ambientC: 19, rippleDb: 0.2 },
  { daysAgo: 790, ambientC: 2, rippleDb: 0.45 },
  { daysAgo: 676, ambientC: 16, rippleDb: 0.55 },
  { daysAgo: 548, ambientC: 23, rippleDb: 0.85 },
  { daysAgo: 431, ambientC: -1, rippleDb: 1.1 },
  { daysAgo: 322, ambientC: 14, rippleDb: 1.25 },
  { daysAgo: 204, ambientC: 21, rippleDb: 1.55 },
  { daysAgo: 93, ambientC: 5, rippleDb: 1.75 },
] as const;

const RIPPLE_MHZ = 31;

/**
 * The past of one station of the demo, Customs Quay: salt water worked its way into a connector for three years, and its
 * flatness grew from visit to visit, so that a drift can be seen before it fails.
 * @returns  the station with its visits and what a simulated meter read, dBmV at the test point; the same each time
 * @throws   Error when the demo has lost the station
 * @source   invented; levels by core/simulate/level.ts
 */
export function quillmerePast(): PastStation {
  const demo = quillmere.find(({ station }) => station.id === quillmerePlans.customsQuay.id);
  const port = demo?.station.ports.find(({ design }) => design !== undefined);
  if (demo === undefined || port === undefined) throw new Error('Customs Quay has no output');
  const { station, scenario } = demo;
  const pluggedIn = Object.fromEntries(station.positions.map(({ name, installed }) => [name, installed]));
  const carriers = scenario.ports
    .filter(({ portName }) => portName === port.name)
    .flatMap((one) => one.carriers)
    .flatMap(({ firstMhz, stepMhz, count }) =>
      Array.from({ length: count }, (_, i) => firstMhz + i * stepMhz),
    );
  const visits = YEARS_OF_SALT.map(({ daysAgo, ambientC, rippleDb }, place): PastVisit => {
    const then = {
      ...scenario,
      seed: scenario.seed + place + 1,
      ports: scenario.ports.map((one) => ({
        ...one,
        faults: one.faults.map((fault) =>
          fault.kind === 'ripple' && fault.periodMhz === RIPPLE_MHZ
            ? { ...fault, peakToPeakDb: rippleDb }
            : fault,
        ),
      })),
    };
    const probe = { station, portName: port.name, pluggedIn, ambientC };
    return {
      daysAgo,
      purpose: place === 0 ? 'as-left' : 'as-found',
      ambientC,
      note: place === 0 ? 'Aligned to the design.' : 'Routine look. Nothing changed.',
      readings: carriers.map((frequencyMhz) => ({
        frequencyMhz,
        meterDbmv: simulatedMeterDbmv(then, probe, frequencyMhz, 0),
        kind: simulatedKind(then, port.name, frequencyMhz),
      })),
    };
  });
  return { station, portName: port.name, pluggedIn, visits };
}
