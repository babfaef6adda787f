import type { Design } from '../files/station.ts';
import { done, type Result } from '../result.ts';
import { chooseRows } from './choose-rows.ts';
import { targetDbmv } from './design-line.ts';
import { type FitRefusal, fitChosen, type SweepFit } from './fit-sweep.ts';
import { headlineOf } from './headline.ts';
import type { LevelRow } from './level-row.ts';

/** Inside what the design allows or not; on which side it is out is the deviation's sign. */
export type PartVerdict = 'pass' | 'fail';
export type LevelStanding = Readonly<{
  valueDbmv: number;
  targetDbmv: number;
  deviationDb: number;
  verdict: PartVerdict;
}>;
export type DbStanding = Readonly<{
  valueDb: number;
  targetDb: number;
  deviationDb: number;
  verdict: PartVerdict;
}>;
export type StationStanding = Readonly<{
  fit: SweepFit;
  levelLow: LevelStanding;
  levelHigh: LevelStanding;
  tilt: DbStanding;
  /** `targetDb` is the most that the design allows; `deviationDb` is above 0 when it is exceeded. */
  flatness: DbStanding;
  /** The row farthest from the design line: level - target. */
  worst: Readonly<{ frequencyMhz: number; deviationDb: number; verdict: PartVerdict }>;
  verdict: 'pass' | 'fail';
  headline: string;
}>;

/** A billionth of a dB is rounding: a row exactly at the tolerance is inside. */
const within = (valueDb: number, allowedDb: number): PartVerdict =>
  valueDb <= allowedDb + 1e-9 ? 'pass' : 'fail';

/**
 * How a sweep stands against a port's design.
 *
 * The verdict is what a proposal aims at: pass when the worst channel is within toleranceDb of the design line and
 * flatness is within flatnessDb. So a station that passes needs no plug-in, and one that fails though nothing better can
 * be plugged in fails by its shape. The parts say where to look: a level of the fitted line passes within toleranceDb;
 * tilt passes within twice that, because two ends inside their tolerance can differ by no more.
 * @param rows     levels at the port in dBmV, any order
 * @param design   the port's design line
 * @param options  keepAll (false): take rows as they stand, without leaving any out
 * @returns  the fit in the design's shape and range, each part with value, target and deviation, verdict and headline;
 *           refused as fitSweep refuses
 * @source   contract, sections 2 and 3; the verdict's rule is common practice, no published source
 */
export function standingAgainstDesign(
  rows: readonly LevelRow[],
  design: Design,
  options: Readonly<{ keepAll?: boolean | undefined }> = {},
): Result<StationStanding, FitRefusal> {
  const { shape, lowMhz, highMhz, toleranceDb, flatnessDb } = design;
  const choice = { shape, lowMhz, highMhz, keepAll: options.keepAll };
  const chosen = chooseRows(rows, choice);
  const fitted = fitChosen(chosen, choice);
  if (!fitted.ok) return fitted;
  const fit = fitted.value;

  const level = (valueDbmv: number, wantedDbmv: number): LevelStanding => {
    const deviationDb = valueDbmv - wantedDbmv;
    return {
      valueDbmv,
      targetDbmv: wantedDbmv,
      deviationDb,
      verdict: within(Math.abs(deviationDb), toleranceDb),
    };
  };
  const tiltTargetDb = design.highDbmv - design.lowDbmv;
  const tiltDeviationDb = fit.tiltDb - tiltTargetDb;
  const flatness = within(fit.flatnessDb, flatnessDb);

  const deviations = chosen.used.map((row) => ({
    frequencyMhz: row.frequencyMhz,
    deviationDb: row.levelDbmv - targetDbmv(design, row.frequencyMhz),
  }));
  const worst = deviations.reduce((worse, row) =>
    Math.abs(row.deviationDb) > Math.abs(worse.deviationDb) ? row : worse,
  );
  const channel = within(Math.abs(worst.deviationDb), toleranceDb);
  const verdict = channel === 'pass' ? flatness : 'fail';

  const lineDbmv: Design = { ...design, lowDbmv: fit.lowDbmv, highDbmv: fit.highDbmv };
  const endAt = (frequencyMhz: number) => ({
    frequencyMhz,
    deviationDb: targetDbmv(lineDbmv, frequencyMhz) - targetDbmv(design, frequencyMhz),
  });
  const headline = headlineOf({
    verdict,
    toleranceDb,
    low: endAt(deviations[0]?.frequencyMhz ?? lowMhz),
    high: endAt(deviations.at(-1)?.frequencyMhz ?? highMhz),
    designTiltDb: tiltTargetDb,
    tiltDeviationDb,
    flatness: { valueDb: fit.flatnessDb, targetDb: flatnessDb },
    worst,
  });
  return done({
    fit,
    levelLow: level(fit.lowDbmv, design.lowDbmv),
    levelHigh: level(fit.highDbmv, design.highDbmv),
    tilt: {
      valueDb: fit.tiltDb,
      targetDb: tiltTargetDb,
      deviationDb: tiltDeviationDb,
      verdict: within(Math.abs(tiltDeviationDb), 2 * toleranceDb),
    },
    flatness: {
      valueDb: fit.flatnessDb,
      targetDb: flatnessDb,
      deviationDb: fit.flatnessDb - flatnessDb,
      verdict: flatness,
    },
    worst: { ...worst, verdict: channel },
    verdict,
    headline,
  });
}
