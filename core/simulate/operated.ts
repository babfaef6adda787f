import type { Scenario, ScenarioPort } from '../files/scenario.ts';
import type { Station } from '../files/station.ts';
import {
  type Demand,
  type GainModule,
  moduleAfterHands,
  moduleLater,
  modulePositionDb,
  settledModule,
  type TimedHand,
} from './gain-module.ts';
import { simulatedDemandDb } from './level.ts';

/** The one module of a station, where the network tells of one. */
type Fitted = Readonly<{ reach: Readonly<{ upDb: number; downDb: number }>; demand: Demand }>;

function fittedIn(scenario: Scenario): Fitted | null {
  const port = scenario.ports.find(
    (one): one is ScenarioPort & { gainControl: NonNullable<ScenarioPort['gainControl']> } =>
      one.gainControl !== null,
  );
  if (port === undefined) return null;
  const { upDb, downDb } = port.gainControl;
  return { reach: { upDb, downDb }, demand: (ambientC) => simulatedDemandDb(port, ambientC) };
}

/** A simulated station as hands have left it, at one moment. */
export type Operated = Readonly<{
  scenario: Scenario;
  module: GainModule;
  /** Where its control stands, dB from the design; null where no hand was at it, and it stands as the network tells. */
  controlDb: number | null;
  ambientC: number;
}>;

/**
 * A simulated station's gain control over time, after what hands did to it.
 * @param station   its pilot is the carrier that a lost pilot takes away, MHz
 * @param scenario  the network's story of it
 * @param hands     in the order in which they were done
 * @param ambientC  degrees C that the asker knows; null for the weather of the scenario's day. A hand that made weather
 *                  outweighs both
 * @returns  null where the scenario has no gain control; else the station at any moment, in milliseconds
 * @source   core/simulate/gain-module.ts
 */
export function operatedStation(
  station: Pick<Station, 'gainControl'>,
  scenario: Scenario,
  hands: readonly TimedHand[],
  ambientC: number | null,
): ((atMs: number) => Operated) | null {
  const fitted = fittedIn(scenario);
  if (fitted === null) return null;
  const { reach, demand } = fitted;
  const made = hands.findLast(({ hand }) => hand.act === 'weather')?.hand;
  const nowC = made?.act === 'weather' ? made.ambientC : (ambientC ?? scenario.weatherC);
  const left = moduleAfterHands(reach, hands, demand);
  const pilotMhz = station.gainControl?.pilotMhz;
  const played =
    left === null || left.pilotPresent || pilotMhz === undefined
      ? scenario
      : withoutCarrier(scenario, pilotMhz);
  return (atMs) => {
    if (left === null)
      return { scenario, module: settledModule(reach, demand(nowC), atMs), controlDb: null, ambientC: nowC };
    const module = moduleLater(left, demand(nowC), atMs);
    return { scenario: played, module, controlDb: modulePositionDb(module), ambientC: nowC };
  };
}

const withoutCarrier = (scenario: Scenario, frequencyMhz: number): Scenario => ({
  ...scenario,
  ports: scenario.ports.map((port) => ({
    ...port,
    faults: [...port.faults, { kind: 'missing' as const, frequencyMhz }],
  })),
});
