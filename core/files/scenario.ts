import { z } from 'zod';
import type { Result } from '../result.ts';
import { readJsonFile } from './json-file.ts';

const finite = z.number();
const mhz = z.number().positive().max(3000);
const nonNegativeDb = z.number().min(0).max(120);
const name = z.string().trim().min(1).max(120);
const shape = z.enum(['linear', 'cable']);

/** A level over frequency, straight in f (`linear`) or in sqrt f (`cable`), also beyond its two ends. */
const LevelLine = z
  .strictObject({ lowMhz: mhz, lowDbmv: finite, highMhz: mhz, highDbmv: finite, shape })
  .refine((line) => line.lowMhz < line.highMhz, { path: ['lowMhz'], message: 'must lie below highMhz' });
const GainLine = z
  .strictObject({ lowMhz: mhz, lowDb: finite, highMhz: mhz, highDb: finite, shape })
  .refine((line) => line.lowMhz < line.highMhz, { path: ['lowMhz'], message: 'must lie below highMhz' });

/** What spoils a line, in the words of the contract's `inspect`, and a length of cable that the design does not know. */
const Fault = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('ripple'), periodMhz: mhz, peakToPeakDb: nonNegativeDb }),
  z.strictObject({ kind: z.literal('notch'), centerMhz: mhz, depthDb: nonNegativeDb, widthMhz: mhz }),
  z
    .strictObject({
      kind: z.literal('rolloff'),
      edge: z.enum(['low', 'high']),
      /** Where it begins, and the end of the band, where it is `depthDb` deep. */
      fromMhz: mhz,
      edgeMhz: mhz,
      depthDb: nonNegativeDb,
    })
    .refine(
      (fault) => (fault.edge === 'high' ? fault.fromMhz < fault.edgeMhz : fault.edgeMhz < fault.fromMhz),
      {
        path: ['edgeMhz'],
        message: 'must lie beyond fromMhz, toward that edge',
      },
    ),
  z.strictObject({ kind: z.literal('missing'), frequencyMhz: mhz }),
  z.strictObject({ kind: z.literal('extra-cable'), lossDb: nonNegativeDb, topMhz: mhz }),
]);

const Carriers = z.strictObject({
  kind: z.enum(['analog', 'qam', 'ofdm', 'cw']),
  firstMhz: mhz,
  stepMhz: mhz,
  count: z.number().int().min(1).max(3000),
  /** A reading within half of this around a carrier's centre finds the carrier. */
  widthMhz: mhz,
});

const ScenarioPort = z.strictObject({
  portName: name,
  carriers: z.array(Carriers).min(1).max(50),
  /** What enters the cable in front of this station. */
  source: LevelLine,
  /** Its loss at 20 degrees C; above and below that, `perDegreeC` of it more or less a degree. */
  cable: z.strictObject({ lossDb: nonNegativeDb, topMhz: mhz, perDegreeC: nonNegativeDb }).nullable(),
  /** What the amplifier adds up to this port, without its plug-ins. */
  gain: GainLine.nullable(),
  /** Plug-ins whose losses the gain makes up for as well; null when the gain stands as it is. */
  madeUpFor: z.record(z.string(), nonNegativeDb).nullable(),
  /** Undoes the cable's change with the weather, as far as it reaches. */
  gainControl: z
    .strictObject({ upDb: nonNegativeDb, downDb: nonNegativeDb, setAtC: finite, topMhz: mhz })
    .nullable(),
  faults: z.array(Fault).max(50),
});

/** What a simulated station does. The loudness of chance is `noiseDb`, the standard deviation of one reading. */
export const Scenario = z
  .strictObject({
    format: z.literal('tiltwright-scenario/1'),
    seed: z.number().int().min(0).max(4294967295),
    noiseDb: z.number().min(0).max(10),
    /** The day's temperature, where the asker does not say another. */
    weatherC: z.number().min(-90).max(90),
    ports: z.array(ScenarioPort).min(1).max(50),
  })
  .refine((scenario) => new Set(scenario.ports.map((port) => port.portName)).size === scenario.ports.length, {
    path: ['ports'],
    message: 'two ports share one name',
  });

export type Scenario = z.infer<typeof Scenario>;
export type ScenarioPort = Scenario['ports'][number];
export type ScenarioFault = ScenarioPort['faults'][number];

/**
 * A scenario file's text to a checked scenario.
 * @param text      JSON
 * @param fileName  named in a refusal
 * @returns  the scenario, or a refusal that names the file and the key
 * @source   contract, section 3, `simulate`; the format is this program's own
 */
export function readScenario(
  text: string,
  fileName: string,
): Result<Scenario, 'not-json' | 'not-a-scenario'> {
  return readJsonFile(
    Scenario,
    { noun: 'scenario', format: 'tiltwright-scenario/1', code: 'not-a-scenario' },
    text,
    fileName,
  );
}
