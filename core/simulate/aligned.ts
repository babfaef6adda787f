import type { Scenario, ScenarioFault, ScenarioPort } from '../files/scenario.ts';
import type { Design, PluggedIn, Station } from '../files/station.ts';
import { cableLossDb } from './cable.ts';

/** The line at a port as a scenario's source. */
const sourceOn = (design: Design): ScenarioPort['source'] => ({
  lowMhz: design.lowMhz,
  lowDbmv: design.lowDbmv,
  highMhz: design.highMhz,
  highDbmv: design.highDbmv,
  shape: design.shape,
});

/** A gain that makes up for a cable over a design's band. */
const gainFor = (cable: Readonly<{ lossDb: number; topMhz: number }>, design: Design) => ({
  lowMhz: design.lowMhz,
  lowDb: cableLossDb(cable, design.lowMhz),
  highMhz: design.highMhz,
  highDb: cableLossDb(cable, design.highMhz),
  shape: 'cable' as const,
});

const carriersFor = (direction: 'forward' | 'return', design: Design): ScenarioPort['carriers'] => {
  // Forward a full load of 6 MHz channels; return the test carriers that a sweep generator leaves at every megahertz.
  const stepMhz = direction === 'forward' ? 6 : 1;
  const firstMhz = design.lowMhz + (direction === 'forward' ? stepMhz / 2 : 0);
  const count = Math.max(1, Math.floor((design.highMhz - firstMhz) / stepMhz + 1e-9) + 1);
  const kind = direction === 'forward' ? ('qam' as const) : ('cw' as const);
  return [{ kind, firstMhz, stepMhz, count, widthMhz: stepMhz }];
};

export type Alignment = Readonly<{
  station: Station;
  seed: number;
  weatherC: number;
  /** With these plug-ins the station meets its design, but for what follows. */
  alignedWith: PluggedIn;
  /** What is added to the design's line at its two ends, by port name. */
  errorDb: Readonly<Record<string, Readonly<{ lowDb: number; highDb: number }>>>;
  /** By port name; `span` for everything that the cable in front of the station does to the forward ports. */
  faults: Readonly<Record<string, readonly ScenarioFault[]>>;
}>;

/**
 * A scenario in which every port with a design meets it at the span's rated temperature with the given plug-ins, but
 * for the errors and faults asked for. A forward port without a design is taken to be fed by the span alone.
 * @returns  the scenario, with a meter that repeats to 0.1 dB (standard deviation)
 * @source   the demo's world is invented; loss formulas of contract, section 2
 */
export function alignedScenario(alignment: Alignment): Scenario {
  const { station, seed, weatherC, alignedWith, errorDb, faults } = alignment;
  const feed = station.ports.find((port) => port.direction === 'forward' && port.design)?.design;
  const own = station.gainControl;
  const ports = station.ports.flatMap((port): ScenarioPort[] => {
    const design = port.design ?? (port.direction === 'forward' ? feed : undefined);
    if (design === undefined) return [];
    const behindSpan = port.direction === 'forward' && station.span !== undefined;
    const cable = behindSpan && station.span ? station.span : null;
    const amplified = port.design !== undefined;
    const error = errorDb[port.name] ?? { lowDb: 0, highDb: 0 };
    const source = sourceOn(design);
    return [
      {
        portName: port.name,
        carriers: carriersFor(port.direction, design),
        source: {
          ...source,
          lowDbmv: source.lowDbmv + error.lowDb,
          highDbmv: source.highDbmv + error.highDb,
        },
        cable: cable && { lossDb: cable.lossDb, topMhz: cable.topMhz, perDegreeC: cable.perDegreeC },
        gain: amplified && cable !== null ? gainFor(cable, design) : null,
        madeUpFor: amplified ? alignedWith : null,
        gainControl:
          amplified && own !== undefined && own.mode !== 'manual'
            ? { upDb: own.upDb, downDb: own.downDb, setAtC: own.setAtC, topMhz: own.topMhz }
            : null,
        faults: [...(behindSpan ? (faults.span ?? []) : []), ...(faults[port.name] ?? [])],
      },
    ];
  });
  return { format: 'tiltwright-scenario/1', seed, noiseDb: 0.1, weatherC, ports };
}
