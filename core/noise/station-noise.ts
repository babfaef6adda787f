import type { Unfit } from '../checked.ts';
import type { AmplifierNotes } from '../files/station-figures.ts';
import { done, type Refusal, type Result } from '../result.ts';
import { cnrFromInputDb, inputNoiseDbmv } from './cnr.ts';
import { type Distortion, distortionAtLevelDbc } from './distortion.ts';
import {
  type NoLevels,
  type OutputLevels,
  outputLevels,
  type StageLevels,
  type StationAsItStands,
  stageLevels,
} from './stage-level.ts';
import { thermalNoiseDbmv } from './thermal-noise.ts';

/** One distortion of one station: as rated, and at the level that it puts out. */
export type StationDistortion = Readonly<{ kind: Distortion; ratedDbc: number; valueDbc: number }>;

export type StationCnr = Readonly<{
  stage: StageLevels;
  /** Thermal noise, and with the noise figure, dBmV in the bandwidth. */
  thermalDbmv: number;
  noiseDbmv: number;
  lowDb: number;
  highDb: number;
}>;

/** What one station adds: each part is told where its figures are known. */
export type StationNoise = Readonly<{
  name: string;
  noiseFigureDb: number;
  bandwidthMhz: number;
  output: OutputLevels;
  /** Or why it can't be told. */
  cnr: StationCnr | Refusal<NoLevels>;
  /** Output at the top frequency less the level of the rating, dB; null without a rating. */
  aboveRatingDb: number | null;
  distortions: readonly StationDistortion[];
}>;

const RATED = [
  ['ctb', 'ctbDbc'],
  ['cso', 'csoDbc'],
  ['xmod', 'xmodDbc'],
] as const;

/**
 * The noise and the distortion that one station adds.
 * @param stands        the station as it stands, levels in dBmV
 * @param amplifier     its data sheet's figures
 * @param bandwidthMhz  noise bandwidth, MHz
 * @returns  carrier to noise at both ends of the design (dB) and each rated distortion at the output level (dBc); or a
 *           refusal without a forward design, or of a number out of range
 * @source   see `cnrFromInputDb`, `distortionAtLevelDbc`, `stageLevels`
 */
export function stationNoise(
  stands: StationAsItStands,
  amplifier: AmplifierNotes,
  bandwidthMhz: number,
): Result<StationNoise, Unfit | 'no-design'> {
  const output = outputLevels(stands);
  if (!output.ok) return output;
  const { noiseFigureDb, ratedAtDbmv } = amplifier;
  const cnr = cnrOf({ ...stands, gainDb: amplifier.gainDb }, noiseFigureDb, bandwidthMhz);
  if (!cnr.ok && cnr.code !== 'no-input-level') return { ...cnr, code: cnr.code };
  const aboveRatingDb = ratedAtDbmv === undefined ? null : output.value.highDbmv - ratedAtDbmv;
  const distortions: StationDistortion[] = [];
  for (const [kind, key] of RATED) {
    const ratedDbc = amplifier[key];
    if (ratedDbc === undefined || aboveRatingDb === null) continue;
    const there = distortionAtLevelDbc(kind, ratedDbc, aboveRatingDb);
    if (!there.ok) return there;
    distortions.push({ kind, ratedDbc, valueDbc: Math.min(0, there.value) });
  }
  return done({
    ...{ name: stands.station.name, noiseFigureDb, bandwidthMhz, output: output.value },
    cnr: cnr.ok ? cnr.value : { ...cnr, code: 'no-input-level' },
    ...{ aboveRatingDb, distortions },
  });
}

function cnrOf(
  stands: StationAsItStands,
  noiseFigureDb: number,
  bandwidthMhz: number,
): Result<StationCnr, NoLevels | Unfit> {
  const thermal = thermalNoiseDbmv(bandwidthMhz);
  if (!thermal.ok) return thermal;
  const station = { noiseFigureDb, bandwidthMhz };
  const noise = inputNoiseDbmv(station);
  if (!noise.ok) return noise;
  const stage = stageLevels(stands);
  if (!stage.ok) return stage;
  const low = cnrFromInputDb(stage.value.lowDbmv, station);
  if (!low.ok) return low;
  const high = cnrFromInputDb(stage.value.highDbmv, station);
  if (!high.ok) return high;
  return done({
    stage: stage.value,
    thermalDbmv: thermal.value,
    noiseDbmv: noise.value,
    lowDb: low.value,
    highDb: high.value,
  });
}
