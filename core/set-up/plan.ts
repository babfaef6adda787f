import type { Station } from '../files/station.ts';
import { done, type Result, refuse } from '../result.ts';
import type { SetUpKind } from './steps.ts';

/** What a set-up is planned with: frequencies in MHz, temperature in degrees C, the span in dB at the top. */
export type SetUpPlan = Readonly<{
  kind: SetUpKind;
  outputPort: string;
  inputPort: string | null;
  topMhz: number;
  /** The carrier at which the levels at the top are read. */
  topCarrierMhz: number;
  pilotMhz: number | null;
  spanDb: number | null;
  ambientC: number | null;
}>;

/** What the technician said; what is null is taken from the station. */
export type SetUpAsked = Readonly<{
  kind: SetUpKind;
  topMhz: number | null;
  topCarrierMhz: number | null;
  pilotMhz: number | null;
  spanDb: number | null;
  ambientC: number | null;
}>;

/**
 * Plans a set-up at a station.
 * @param station  its first forward port with a design is the output; the stage input's port, else a forward port
 *                 without a design, is the input
 * @param asked    MHz, dB, degrees C
 * @returns  the plan: the top from `gainControl`, else from the design; its carrier from `stageInput`, else the top
 *           itself; pilot and span from the station; or a refusal
 * @source   contract, section 2
 */
export function setUpPlan(station: Station, asked: SetUpAsked): Result<SetUpPlan, 'no-design' | 'bad-top'> {
  const forward = station.ports.filter((port) => port.direction === 'forward');
  const output = forward.find((port) => port.design !== undefined);
  if (output?.design === undefined)
    return refuse('no-design', `station ${station.name}, ports`, 'give a forward port its "design"');
  const topMhz = asked.topMhz ?? station.gainControl?.topMhz ?? output.design.highMhz;
  const topCarrierMhz = asked.topCarrierMhz ?? station.stageInput?.atMhz ?? topMhz;
  if (topCarrierMhz > topMhz + 1e-9)
    return refuse(
      'bad-top',
      `${topCarrierMhz} MHz`,
      `choose a carrier at or below the top frequency, ${topMhz} MHz`,
    );
  const inputPort =
    station.stageInput?.port ??
    forward.find((port) => port.name !== output.name && port.design === undefined)?.name;
  return done({
    kind: asked.kind,
    outputPort: output.name,
    inputPort: inputPort ?? null,
    topMhz,
    topCarrierMhz,
    pilotMhz: asked.pilotMhz ?? station.gainControl?.pilotMhz ?? null,
    spanDb: asked.spanDb ?? station.span?.lossDb ?? null,
    ambientC: asked.ambientC,
  });
}
