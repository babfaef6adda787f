import { z } from 'zod';
import type { Result } from '../result.ts';
import { readJsonFile } from './json-file.ts';

const finite = z.number();
const mhz = z.number().positive();
const nonNegativeDb = z.number().min(0);
const name = z.string().trim().min(1).max(120);
const curve = z.array(z.tuple([mhz, finite])).min(1);

const Design = z
  .strictObject({
    lowMhz: mhz,
    lowDbmv: finite,
    highMhz: mhz,
    highDbmv: finite,
    shape: z.enum(['linear', 'cable']),
    toleranceDb: z.number().positive(),
    flatnessDb: z.number().positive(),
  })
  .refine((design) => design.lowMhz < design.highMhz, {
    path: ['lowMhz'],
    message: 'must lie below highMhz',
  });

const Port = z.strictObject({
  name,
  direction: z.enum(['forward', 'return']),
  testPointLossDb: nonNegativeDb.default(0),
  design: Design.optional(),
  through: z.array(name).default([]),
});

const positionBase = {
  name,
  installed: nonNegativeDb,
  values: z.array(nonNegativeDb).min(1),
  /** Measured loss by value, [MHz, dB] points in rising frequency. */
  curves: z.record(z.string(), curve).optional(),
};
const Position = z.discriminatedUnion('kind', [
  z.strictObject({ ...positionBase, kind: z.literal('pad') }),
  z.strictObject({
    ...positionBase,
    kind: z.literal('equalizer'),
    topMhz: mhz,
    insertionLossDb: nonNegativeDb.default(0),
  }),
  z.strictObject({
    ...positionBase,
    kind: z.literal('cable-simulator'),
    topMhz: mhz,
    insertionLossDb: nonNegativeDb.default(0),
  }),
]);

const StageInput = z
  .strictObject({ port: name, through: z.array(name), atMhz: mhz, minDbmv: finite, maxDbmv: finite })
  .refine((limit) => limit.minDbmv <= limit.maxDbmv, {
    path: ['minDbmv'],
    message: 'must not exceed maxDbmv',
  });

const Span = z.strictObject({
  lossDb: nonNegativeDb,
  topMhz: mhz,
  perDegreeC: nonNegativeDb.default(0.00198),
  sky: z.enum(['aerial', 'buried']).optional(),
});

const GainControl = z.strictObject({
  mode: z.enum(['manual', 'auto', 'thermal']),
  upDb: nonNegativeDb,
  downDb: nonNegativeDb,
  topMhz: mhz,
  setAtC: finite,
  pilotMhz: mhz.optional(),
  thermalTracking: nonNegativeDb.optional(),
});

/** The station file of contract section 2. Unknown keys are refused by name; names must be those of positions and ports. */
export const Station = z
  .strictObject({
    format: z.literal('tiltwright-station/1'),
    id: name,
    name,
    ports: z.array(Port).min(1),
    positions: z.array(Position),
    stageInput: StageInput.optional(),
    span: Span.optional(),
    gainControl: GainControl.optional(),
  })
  .superRefine((station, issues) => {
    const positions = new Set(station.positions.map((position) => position.name));
    const ports = new Set(station.ports.map((port) => port.name));
    const complain = (path: (string | number)[], message: string) =>
      issues.addIssue({ code: 'custom', path, message });
    if (positions.size !== station.positions.length) complain(['positions'], 'two positions share one name');
    if (ports.size !== station.ports.length) complain(['ports'], 'two ports share one name');
    station.ports.forEach((port, i) => {
      port.through.forEach((named, j) => {
        if (!positions.has(named)) complain(['ports', i, 'through', j], `no position is named "${named}"`);
      });
    });
    if (station.stageInput && !ports.has(station.stageInput.port))
      complain(['stageInput', 'port'], `no port is named "${station.stageInput.port}"`);
    station.stageInput?.through.forEach((named, j) => {
      if (!positions.has(named)) complain(['stageInput', 'through', j], `no position is named "${named}"`);
    });
  });

export type Station = z.infer<typeof Station>;
export type Port = Station['ports'][number];
export type Design = NonNullable<Port['design']>;
export type Position = Station['positions'][number];
export type PlugInKind = Position['kind'];
/** Which value is plugged in where: position name to value in dB. */
export type PluggedIn = Readonly<Record<string, number>>;

/**
 * A station file's text to a checked station.
 * @param text      JSON
 * @param fileName  named in a refusal
 * @returns  the station, or a refusal that names the file and the key
 * @source   contract, section 2
 */
export function readStation(text: string, fileName: string): Result<Station, 'not-json' | 'not-a-station'> {
  return readJsonFile(
    Station,
    { noun: 'station file', format: 'tiltwright-station/1', code: 'not-a-station' },
    text,
    fileName,
  );
}

/**
 * What the design revision says is plugged in.
 * @returns  position name to value in dB
 * @source   contract, section 2, `installed`
 */
export const installedOf = (station: Station): PluggedIn =>
  Object.fromEntries(station.positions.map((position) => [position.name, position.installed]));

/**
 * What is in at each position of a station, by what is told: a sweep of an earlier design tells nothing of a position that was
 * described later, and what it tells of one that is no more is nobody's.
 * @param told  position name to value in dB
 * @returns  every position of the station, and no other; what is not told is what the design says is installed
 * @source   contract, section 2, `installed`
 */
export const pluggedAt = (station: Pick<Station, 'positions'>, told: PluggedIn): PluggedIn =>
  Object.fromEntries(station.positions.map(({ name, installed }) => [name, told[name] ?? installed]));

/**
 * The station as it stands now, for a new design revision: who changes the design does not pull a plug-in out.
 * @param told  as for `pluggedAt`
 * @source   contract, section 2, `installed`
 */
export function withPluggedIn(station: Station, told: PluggedIn): Station {
  const now = pluggedAt(station, told);
  const positions = station.positions.map((one) => ({ ...one, installed: now[one.name] ?? one.installed }));
  return { ...station, positions };
}
