import type { Scenario } from '../files/scenario.ts';
import { installedOf, type Station } from '../files/station.ts';
import { alignedScenario } from './aligned.ts';
import { normalNoise } from './noise.ts';

/**
 * A scenario for a station that the simulated network does not know, so that the workbench can be tried on one's own
 * design: every port with a design is off by a mild tilt, at most 0.8 dB at the low and 2.4 dB at the high end.
 * @param station  its installed plug-ins are taken to be those that it was aligned with
 * @param seed     whole number from 0 to 2^32 - 1; the same seed gives the same errors
 * @returns  the scenario, at 20 degrees C
 * @source   invented for trying out; common practice, no published source
 */
export function genericScenario(station: Station, seed: number): Scenario {
  const within = (limit: number, draw: number) =>
    Math.max(-limit, Math.min(limit, (limit / 2) * normalNoise(seed, 0, draw)));
  const errorDb = Object.fromEntries(
    station.ports.map((port, i) => {
      const highDb = within(1.2, 2 * i);
      // Away from 0, so that there is something to find.
      return [port.name, { lowDb: within(0.8, 2 * i + 1), highDb: highDb < 0 ? highDb - 1.2 : highDb + 1.2 }];
    }),
  );
  return alignedScenario({
    station,
    seed,
    weatherC: 20,
    alignedWith: installedOf(station),
    errorDb,
    faults: {},
  });
}
