import type { Input } from '../../../core/bridge/contract.ts';
import type { SimulatedModule } from '../../../core/bridge/live-calls.ts';
import { modulePositionDb } from '../../../core/simulate/gain-module.ts';
import { type Operated, operatedStation } from '../../../core/simulate/operated.ts';
import { fromThousandths, maybe, orderedJson, thousandthsOf } from '../archive/quantities.ts';
import { scenarioOf } from '../meters/simulated/scenario-of.ts';
import type { Designs } from './designs.ts';
import type { Meters } from './meters.ts';
import { handsAt } from './probe-at.ts';
import { refused, type ServiceParts } from './service-parts.ts';

export type SimulatedHands = Readonly<{
  /** @throws Refused unless the simulated meter is in use and the station has a gain control there */
  hand(input: Input<'simulate.hand'>): SimulatedModule;
  module(input: Input<'simulate.module'>): SimulatedModule | null;
}>;

const viewOf = ({ module, ambientC }: Operated): SimulatedModule => {
  const { reach, handDb } = module;
  const at = (endDb: number) => Math.abs(handDb - endDb) < 1e-9;
  return {
    mode: module.mode,
    controlDb: modulePositionDb(module),
    lowestDb: -reach.downDb,
    highestDb: reach.upDb,
    handAtEnd: at(-reach.downDb) ? 'low' : at(reach.upDb) ? 'high' : null,
    pilotPresent: module.pilotPresent,
    ambientC,
  };
};

/** A hand at the stations of the simulated network. What it did is kept, so that a restart changes nothing. */
export function createSimulatedHands(
  { archive, now }: ServiceParts,
  designs: Designs,
  meters: Pick<Meters, 'current'>,
  changed: (stationId: string) => void,
): SimulatedHands {
  const operated = (stationId: string): Operated | null => {
    const { station } = designs.newest(stationId);
    const ambientC = maybe(archive.visits.openOf(stationId)?.ambientMc ?? null, fromThousandths);
    const at = operatedStation(station, scenarioOf(station), handsAt(archive, stationId), ambientC);
    return at?.(now().getTime()) ?? null;
  };
  const module = (stationId: string): SimulatedModule | null => {
    const at = operated(stationId);
    return at === null ? null : viewOf(at);
  };
  return {
    module: ({ stationId }) => module(stationId),
    hand({ stationId, hand }) {
      const { station } = designs.newest(stationId);
      if (meters.current()?.choice.kind !== 'simulated')
        throw refused(
          'not-simulated',
          'meter',
          'only the simulated network has a hand to play: connect the simulated meter',
        );
      archive.write(() => {
        const before = operated(stationId);
        if (before === null)
          throw refused('no-gain-control', station.name, 'the simulated station has no gain control to turn');
        archive.lives.addHand(stationId, {
          hand: orderedJson(hand),
          ambientMc: thousandthsOf(before.ambientC),
          doneAtMs: now().getTime(),
        });
      });
      changed(stationId);
      const after = module(stationId);
      if (after === null) throw new Error('the simulated module is gone');
      return after;
    },
  };
}
