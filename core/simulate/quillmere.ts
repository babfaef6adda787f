import type { Scenario, ScenarioFault } from '../files/scenario.ts';
import { installedOf, type Station } from '../files/station.ts';
import { alignedScenario } from './aligned.ts';
import { quillmerePlans, quillmereStation, type StationPlan } from './quillmere-stations.ts';

export type DemoStation = Readonly<{ station: Station; scenario: Scenario; story: string }>;

type Tale = Readonly<{
  plan: StationPlan;
  seed: number;
  weatherC: number;
  outputErrorDb: Readonly<{ lowDb: number; highDb: number }>;
  faults: Readonly<Record<string, readonly ScenarioFault[]>>;
  story: string;
}>;

/** An amplifier's own gentle swing over the band, far inside its flatness. */
const ownSwing: ScenarioFault = { kind: 'ripple', periodMhz: 430, peakToPeakDb: 0.3 };

function told({ plan, seed, weatherC, outputErrorDb, faults, story }: Tale): DemoStation {
  const station = quillmereStation(plan);
  const scenario = alignedScenario({
    station,
    seed,
    weatherC,
    alignedWith: installedOf(station),
    errorDb: { 'forward output': outputErrorDb, 'return output': { lowDb: 0.2, highDb: -0.2 } },
    faults: { ...faults, 'forward output': [ownSwing, ...(faults['forward output'] ?? [])] },
  });
  return { station, scenario, story };
}

/** A module on the bench is fed flat, at one level, by a generator: no span in front of it. */
function onTheBench(demo: DemoStation): DemoStation {
  const flatDbmv = 18;
  const ports = demo.scenario.ports.map((port) => {
    if (port.portName === 'return output') return port;
    const source = { ...port.source, lowDbmv: flatDbmv, highDbmv: flatDbmv };
    const { lowMhz, highMhz, lowDbmv, highDbmv } = port.source;
    const gain = {
      lowMhz,
      lowDb: lowDbmv - flatDbmv,
      highMhz,
      highDb: highDbmv - flatDbmv,
      shape: 'linear' as const,
    };
    return { ...port, source, gain: port.portName === 'forward output' ? gain : null };
  });
  return { ...demo, scenario: { ...demo.scenario, ports } };
}

/**
 * The invented network of the demo: node QM-4 of the harbour town Quillmere, five stations in cascade order and a
 * bench module. Each is fed by a line that meets its design, so that each tells its own story and no other's.
 */
export const quillmere: readonly DemoStation[] = [
  told({
    plan: quillmerePlans.ropewalk,
    seed: 403,
    weatherC: 12,
    outputErrorDb: { lowDb: 0.1, highDb: -0.1 },
    faults: {},
    story: 'In order. Nothing to change.',
  }),
  told({
    plan: quillmerePlans.millLane,
    seed: 407,
    weatherC: 12,
    outputErrorDb: { lowDb: 0.1, highDb: 0 },
    faults: { span: [{ kind: 'extra-cable', lossDb: 2, topMhz: 870 }] },
    story:
      'A storm took the span down and a longer cable was hung. The station was never balanced again: it reads low, most of all at the top.',
  }),
  told({
    plan: quillmerePlans.customsQuay,
    seed: 411,
    weatherC: 9,
    outputErrorDb: { lowDb: -0.1, highDb: 0.1 },
    faults: { span: [{ kind: 'ripple', periodMhz: 31, peakToPeakDb: 3.2 }] },
    story:
      'Salt water in a connector of the span: a ripple over the whole band, which no pad and no equalizer takes away.',
  }),
  told({
    plan: quillmerePlans.saltpanRoad,
    seed: 414,
    weatherC: 9,
    outputErrorDb: { lowDb: 0.1, highDb: 0.1 },
    faults: { span: [{ kind: 'notch', centerMhz: 615, depthDb: 4.5, widthMhz: 36 }] },
    story: 'A suck-out around 615 MHz: a splice is open. To be mended, not balanced away.',
  }),
  told({
    plan: quillmerePlans.lighthouseRise,
    seed: 419,
    weatherC: -18,
    outputErrorDb: { lowDb: 0, highDb: 0.1 },
    faults: {},
    story:
      'A night of hard frost. The gain control was left with half a decibel of reserve downward: it stands at its stop, and the output is high.',
  }),
  onTheBench(
    told({
      plan: quillmerePlans.benchB2,
      seed: 422,
      weatherC: 21,
      outputErrorDb: { lowDb: 0, highDb: 0 },
      faults: {
        'forward output': [{ kind: 'rolloff', edge: 'high', fromMhz: 750, edgeMhz: 870, depthDb: 3.5 }],
      },
      story:
        'On the bench: in line up to 750 MHz, then it rolls off toward the band edge. The module is worn.',
    }),
  ),
];
