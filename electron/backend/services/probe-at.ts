import { z } from 'zod';
import { SimulatedHand } from '../../../core/bridge/live-calls.ts';
import type { TimedHand } from '../../../core/simulate/gain-module.ts';
import type { Archive } from '../archive/open.ts';
import { fromThousandths, maybe } from '../archive/quantities.ts';
import type { Probe } from '../meters/meter-shop.ts';
import type { Design } from './designs.ts';
import { pluggedInNow } from './plugged-in.ts';

const Kept = z.string().transform((text) => SimulatedHand.parse(JSON.parse(text)));

/** What hands did to the gain control of a simulated station, in order. */
export const handsAt = (archive: Archive, stationId: string): readonly TimedHand[] =>
  archive.lives.handsAt(stationId).flatMap(({ hand, ambientMc, doneAtMs }) =>
    // It is kept with every hand; a row without it could say nothing of what the cable asked for.
    ambientMc === null
      ? []
      : [{ hand: Kept.parse(hand), atMs: doneAtMs, ambientC: fromThousandths(ambientMc) }],
  );

/** A probe at a port of a station as it stands now. */
export const probeNow = (
  archive: Archive,
  design: Design,
  portName: string,
  ambientMc: number | null,
): Probe => ({
  station: design.station,
  portName,
  pluggedIn: pluggedInNow(archive, design),
  ambientC: maybe(ambientMc, fromThousandths),
  hands: handsAt(archive, design.station.id),
});
