import type { Scenario, ScenarioPort } from '../files/scenario.ts';
import type { PluggedIn, Station } from '../files/station.ts';
import type { SignalKind } from '../line/level-row.ts';
import { throughLossDb } from '../plug-ins/through.ts';
import { cableChangeDb, cableLossDb } from './cable.ts';
import { faultLossDb } from './faults.ts';
import { valueOn } from './level-line.ts';
import { normalNoise } from './noise.ts';

/** Where the simulated meter's probe sits. `ambientC` null means the weather of the scenario's day. */
export type SimulatedProbe = Readonly<{
  station: Station;
  portName: string;
  pluggedIn: PluggedIn;
  ambientC: number | null;
  /** Where a hand has put the gain control, dB from the design at its top frequency; without it, it follows the cable. */
  controlDb?: number | null;
}>;

/** The temperature at which a cable has its rated loss. */
const CABLE_RATED_C = 20;

function stationPort(probe: SimulatedProbe) {
  const port = probe.station.ports.find((one) => one.name === probe.portName);
  if (port === undefined) throw new RangeError(`${probe.station.name} has no port "${probe.portName}"`);
  return port;
}

/**
 * The kind of signal that a scenario plays at a frequency.
 * @param frequencyMhz  MHz, above 0
 * @returns  null where no carrier is, or where the scenario does not know the port
 * @source   the scenario format is this program's own
 */
export function simulatedKind(scenario: Scenario, portName: string, frequencyMhz: number): SignalKind | null {
  const port = scenario.ports.find((one) => one.portName === portName);
  if (port === undefined) return null;
  for (const { kind, firstMhz, stepMhz, count, widthMhz } of port.carriers) {
    const index = Math.min(count - 1, Math.max(0, Math.round((frequencyMhz - firstMhz) / stepMhz)));
    const centerMhz = firstMhz + index * stepMhz;
    if (Math.abs(frequencyMhz - centerMhz) > widthMhz / 2) continue;
    const gone = port.faults.some(
      (fault) => fault.kind === 'missing' && Math.abs(fault.frequencyMhz - centerMhz) <= widthMhz / 2,
    );
    if (!gone) return kind;
  }
  return null;
}

/**
 * What a port's cable asks of its gain control.
 * @returns  dB at the control's top frequency; 0 for a port without a control or without a cable
 * @source   contract, section 2, `span` and `gainControl`
 */
export function simulatedDemandDb(port: ScenarioPort, ambientC: number): number {
  if (port.gainControl === null || port.cable === null) return 0;
  const { setAtC, topMhz } = port.gainControl;
  return (
    cableChangeDb(port.cable, ambientC, setAtC) *
    cableLossDb({ lossDb: 1, topMhz: port.cable.topMhz }, topMhz)
  );
}

/** How far the gain control follows the cable, in dB at its top frequency. */
function followedDb(port: ScenarioPort, ambientC: number): number {
  if (port.gainControl === null) return 0;
  const { upDb, downDb } = port.gainControl;
  return Math.min(upDb, Math.max(-downDb, simulatedDemandDb(port, ambientC)));
}

/**
 * The level at a port as it is, without the chance of a reading.
 * @param frequencyMhz  MHz, above 0
 * @returns  dBmV at the port (not at its test point), or null where no carrier is
 * @throws   RangeError when the station has no such port: the asker chose from the station's own list
 * @source   contract, section 2 (loss of a plug-in, `span`, `gainControl`)
 */
export function simulatedPortDbmv(
  scenario: Scenario,
  probe: SimulatedProbe,
  frequencyMhz: number,
): number | null {
  const { through } = stationPort(probe);
  const port = scenario.ports.find((one) => one.portName === probe.portName);
  if (port === undefined || simulatedKind(scenario, probe.portName, frequencyMhz) === null) return null;
  const ambientC = probe.ambientC ?? scenario.weatherC;
  const { source, cable, gain, madeUpFor, gainControl } = port;
  let levelDbmv = valueOn({ ...source, low: source.lowDbmv, high: source.highDbmv }, frequencyMhz);
  if (cable !== null) {
    const lossDb = cable.lossDb + cableChangeDb(cable, ambientC, CABLE_RATED_C);
    levelDbmv -= cableLossDb({ lossDb, topMhz: cable.topMhz }, frequencyMhz);
  }
  if (gain !== null) levelDbmv += valueOn({ ...gain, low: gain.lowDb, high: gain.highDb }, frequencyMhz);
  if (madeUpFor !== null) levelDbmv += throughLossDb(probe.station, through, madeUpFor, frequencyMhz);
  levelDbmv -= throughLossDb(probe.station, through, probe.pluggedIn, frequencyMhz);
  if (gainControl !== null) {
    const lossDb = probe.controlDb ?? followedDb(port, ambientC);
    levelDbmv += cableLossDb({ lossDb, topMhz: gainControl.topMhz }, frequencyMhz);
  }
  for (const fault of port.faults) levelDbmv -= faultLossDb(fault, frequencyMhz);
  return levelDbmv;
}

/**
 * What a meter reads at a port's test point: the port's level less its test point loss, and the chance of one reading.
 * @param frequencyMhz  MHz, above 0
 * @param draw          which reading this is, a whole number; the same draw reads the same
 * @returns  dBmV at the test point, or null where no carrier is
 * @throws   RangeError when the station has no such port
 * @source   contract, section 2, `testPointLossDb`
 */
export function simulatedMeterDbmv(
  scenario: Scenario,
  probe: SimulatedProbe,
  frequencyMhz: number,
  draw: number,
): number | null {
  const portDbmv = simulatedPortDbmv(scenario, probe, frequencyMhz);
  if (portDbmv === null) return null;
  const { testPointLossDb } = stationPort(probe);
  return portDbmv - testPointLossDb + scenario.noiseDb * normalNoise(scenario.seed, frequencyMhz, draw);
}
