import type { Scenario } from '../../../../core/files/scenario.ts';
import { installedOf, type Station } from '../../../../core/files/station.ts';
import { simulatedMeterDbmv } from '../../../../core/simulate/level.ts';
import { operatedStation } from '../../../../core/simulate/operated.ts';
import { quillmere } from '../../../../core/simulate/quillmere.ts';
import type { Probe } from '../meter-shop.ts';
import type { LevelSource } from './instrument.ts';
import { scenarioOf } from './scenario-of.ts';

/** Where a simulated meter's probe sits, and the level that it finds there. */
export type SimulatedPlace = Readonly<{ levelAt: LevelSource; moveProbe: (probe: Probe) => void }>;

/** What the place may be given: a story of one's own in place of a station's, and where the probe sits at first. */
export type PlaceStart = Readonly<{ scenario?: Scenario; probe?: Probe; now?: () => Date }>;

const firstPort = 'forward output';

/**
 * A station of Quillmere plays its own story; another station plays a general one. Before the probe is put anywhere
 * it sits at the first Quillmere station's forward output.
 */
export function createSimulatedPlace(start: PlaceStart = {}): SimulatedPlace {
  const now = start.now ?? (() => new Date());
  let probe = start.probe ?? probeAt(firstStation(), firstPort);
  let scenario = start.scenario ?? scenarioOf(probe.station);
  let operated = operatedAt();

  /** Null while no hand was at the station: then it stands as its story tells it, whatever the time. */
  function operatedAt() {
    const { hands = [], station, ambientC } = probe;
    return hands.length === 0 ? null : operatedStation(station, scenario, hands, ambientC);
  }
  return {
    levelAt(frequencyMhz, draw) {
      if (operated === null) return simulatedMeterDbmv(scenario, probe, frequencyMhz, draw);
      const { scenario: played, controlDb, ambientC } = operated(now().getTime());
      return simulatedMeterDbmv(played, { ...probe, controlDb, ambientC }, frequencyMhz, draw);
    },
    moveProbe(moved) {
      if (start.scenario === undefined && moved.station.id !== probe.station.id) {
        scenario = scenarioOf(moved.station);
      }
      probe = moved;
      operated = operatedAt();
    },
  };
}

/** A probe at a port of a station as it is designed. */
export const probeAt = (station: Station, portName: string): Probe => ({
  station,
  portName,
  pluggedIn: installedOf(station),
  ambientC: null,
});

export function firstStation(): Station {
  const [first] = quillmere;
  if (first === undefined) throw new Error('the simulated network has no station');
  return first.station;
}
