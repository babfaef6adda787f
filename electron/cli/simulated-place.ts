import { type Command, Option } from 'commander';
import { Refused } from '../../core/bridge/refused.ts';
import { readScenario, type Scenario } from '../../core/files/scenario.ts';
import { readStation, type Station } from '../../core/files/station.ts';
import { type Result, refuse } from '../../core/result.ts';
import { quillmere } from '../../core/simulate/quillmere.ts';
import {
  createSimulatedPlace,
  firstStation,
  probeAt,
  type SimulatedPlace,
} from '../backend/meters/simulated/source.ts';
import { numberOption } from './number-option.ts';
import { readInput } from './read-input.ts';

/** Where a simulated meter is to sit, as the command line says it. */
export type PlaceOptions = Readonly<{
  scenario?: string;
  station?: string;
  stationId?: string;
  portName?: string;
  ambientC?: number;
}>;

/** The options of a simulated meter, the same for every verb that has one. */
export const withPlaceOptions = (command: Command): Command =>
  command
    .option('--scenario <file>', 'plays this scenario (JSON) in place of a story of Quillmere')
    .addOption(new Option('--station <file>', 'sits at this station (JSON)').conflicts('stationId'))
    .option('--station-id <id>', `sits at this station of Quillmere: ${stationIds()}`)
    .option('--port-name <name>', "the station's port; default: forward output, or the first of the scenario")
    .option(
      '--ambient-c <C>',
      "outside temperature; default: the scenario's",
      numberOption('a temperature', -90),
    );

const stationIds = () => quillmere.map(({ station }) => station.id).join(', ');

const certain = <T>(result: Result<T>): T => {
  if (result.ok) return result.value;
  throw new Refused(result);
};

/** The place, or `Refused` where a file or a name is not what it should be. */
export async function placeOf(options: PlaceOptions): Promise<SimulatedPlace> {
  const { scenario: file, ambientC = null } = options;
  const scenario = file === undefined ? undefined : certain(readScenario(await readInput(file), file));
  const station = await stationOf(options, scenario);
  const wished = options.portName ?? scenario?.ports[0]?.portName ?? 'forward output';
  const port = station.ports.find(({ name }) => name === wished) ?? station.ports[0];
  if (port === undefined || (options.portName !== undefined && port.name !== options.portName)) {
    const names = station.ports.map(({ name }) => name).join(', ');
    throw new Refused(refuse('no-such-port', `port "${wished}"`, `${station.name} has ${names}`));
  }
  const probe = { ...probeAt(station, port.name), ambientC };
  return createSimulatedPlace(scenario === undefined ? { probe } : { scenario, probe });
}

async function stationOf(options: PlaceOptions, scenario: Scenario | undefined): Promise<Station> {
  if (options.station !== undefined) {
    return certain(readStation(await readInput(options.station), options.station));
  }
  if (options.stationId !== undefined) {
    const demo = quillmere.find(({ station }) => station.id === options.stationId);
    if (demo !== undefined) return demo.station;
    const where = `station "${options.stationId}"`;
    throw new Refused(refuse('no-such-station', where, `Quillmere has ${stationIds()}`));
  }
  return scenario === undefined ? firstStation() : bareStation(scenario);
}

/** A scenario alone says nothing of plug-ins and test points, so it is played at a station that has none. */
const bareStation = ({ ports }: Scenario): Station => ({
  format: 'tiltwright-station/1',
  id: 'scenario',
  name: 'The scenario',
  ports: ports.map(({ portName }) => ({
    name: portName,
    direction: 'forward',
    testPointLossDb: 0,
    through: [],
  })),
  positions: [],
});
