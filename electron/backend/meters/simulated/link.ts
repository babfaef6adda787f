import type { WireStart } from '../byte-wire.ts';
import type { LineLink } from '../line-link.ts';
import { createLineLink } from '../lines-over-bytes.ts';
import type { Profile } from '../profile.ts';
import { createFront, type Pace, usualPace } from './front.ts';
import { type Instrument, SimulatedInstrument } from './instrument.ts';
import type { SimulatedPlace } from './source.ts';

/** A wire inside this process: what is written reaches the instrument as bytes, and its bytes come back. */
export function wireToInstrument(instrument: Instrument, pace: Pace): WireStart {
  return (events) => {
    const front = createFront(instrument, pace, (bytes) => setImmediate(() => events.bytes(bytes)));
    return {
      write(bytes, taken) {
        setImmediate(() => {
          front.receive(bytes);
          taken();
        });
      },
      async close() {
        front.stop();
      },
    };
  };
}

/** The simulated meter of this process, behind the same line link and grammar as one on a port. */
export const openSimulatedLink = (
  place: SimulatedPlace,
  profile: Profile,
  pace: Pace = usualPace,
): LineLink =>
  createLineLink(
    'simulated meter',
    profile.lines,
    wireToInstrument(new SimulatedInstrument({ source: place.levelAt }), pace),
  );
