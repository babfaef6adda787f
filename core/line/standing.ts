import type { LineUpEntry } from '../channels/line-up.ts';
import type { Design } from '../files/station.ts';
import { done, type Result } from '../result.ts';
import { type Conditions, unfitConditions } from '../uncertainty/budget.ts';
import type { Verdict } from '../uncertainty/conformity.ts';
import { type ChosenSignals, chooseRows } from './choose-rows.ts';
import { targetAt, targetDbmv, unfitDesign } from './design-line.ts';
import { type FitRefusal, fitChosen, type SweepFit } from './fit-sweep.ts';
import { headlineOf } from './headline.ts';
import type { LevelRow } from './level-row.ts';
import { positionsOf } from './position.ts';
import type { UsableRow } from './usable-rows.ts';
import {
  channelUncertaintyAt,
  type Judged,
  judged,
  type StandingUncertainty,
  standingUncertainty,
  together,
} from './verdicts.ts';

/** Inside what the design allows or not, or too near the limit to say; on which side it is out is the deviation's sign. */
export type PartVerdict = Verdict;
export type LevelStanding = Judged & Readonly<{ valueDbmv: number; targetDbmv: number; deviationDb: number }>;
export type DbStanding = Judged & Readonly<{ valueDb: number; targetDb: number; deviationDb: number }>;
export type StationStanding = Readonly<{
  /** Of the rows on the reference line, where there are several kinds of signal. */
  fit: SweepFit;
  levelLow: LevelStanding;
  levelHigh: LevelStanding;
  tilt: DbStanding;
  /** `targetDb` is the most that the design allows; `deviationDb` is above 0 when it is exceeded. */
  flatness: DbStanding;
  /** The row farthest from the target of its kind: level - target. */
  worst: Judged & Readonly<{ frequencyMhz: number; deviationDb: number }>;
  verdict: Verdict;
  /** Of the whole: as likely as its less likely part. Only with an uncertainty. */
  probability?: number;
  headline: string;
  /** Where the uncertainties come from; only with an uncertainty. */
  uncertainty?: StandingUncertainty;
  /** Which kinds of signal were compared with which line; only where there are several or a line-up was given. */
  signals?: ChosenSignals;
}>;
export type StandingOptions = Readonly<{
  keepAll?: boolean | undefined;
  /** The meter and the temperature; without them a verdict is pass or fail, as if every reading were certain. */
  uncertainty?: Conditions | null | undefined;
  lineUp?: readonly LineUpEntry[] | null | undefined;
}>;

export type StandingRefusal = FitRefusal | 'bad-design' | 'bad-value';

/** 95 of 100 times the true value lies within this many standard uncertainties. */
const COVERAGE = 1.96;

/**
 * How a sweep stands against a port's design.
 *
 * The verdict is what a proposal aims at: pass when the worst channel is within toleranceDb of the design line and
 * flatness is within flatnessDb. So a station that passes needs no plug-in, and one that fails though nothing better can
 * be plugged in fails by its shape. The parts say where to look: a level of the fitted line passes within toleranceDb;
 * tilt passes within twice that, because two ends inside their tolerance can differ by no more. Each row is compared with
 * the target of its own kind of signal. With an uncertainty a part passes or fails only where the chance of that is 95 %.
 * @param rows     levels at the port in dBmV, any order
 * @param design   the port's design line, that of analog carriers where a line-up is given
 * @param options  keepAll (false): take rows as they stand, without moving or leaving any out; uncertainty; lineUp
 * @returns  the fit in the design's shape and range, each part with value, target and deviation, verdict and headline;
 *           refused as fitSweep refuses, and for a design or an uncertainty that makes no sense
 * @source   contract, sections 2 and 3; the verdict's rule is common practice, no published source; guard bands: JCGM
 *           106:2012, 8.3 (from memory)
 */
export function standingAgainstDesign(
  rows: readonly LevelRow[],
  design: Design,
  options: StandingOptions = {},
): Result<StationStanding, StandingRefusal> {
  const unfit =
    unfitDesign(design) ?? (options.uncertainty == null ? null : unfitConditions(options.uncertainty));
  if (unfit !== null) return unfit;
  const { shape, lowMhz, highMhz, toleranceDb, flatnessDb } = design;
  const choice = { shape, lowMhz, highMhz, keepAll: options.keepAll, lineUp: options.lineUp };
  const chosen = chooseRows(rows, choice);
  const fitted = fitChosen(chosen, choice);
  if (!fitted.ok) return fitted;
  const fit = fitted.value;
  const lineDbmv: Design = { ...design, lowDbmv: fit.lowDbmv, highDbmv: fit.highDbmv };
  const position = positionsOf(chosen.used, shape, lowMhz, highMhz);
  const offLineDb = new Float64Array(position.length);
  let worst = { frequencyMhz: lowMhz, deviationDb: 0 };
  let worstDb = -1;
  for (let i = 0; i < position.length; i++) {
    const { frequencyMhz, levelDbmv } = chosen.used[i] as UsableRow;
    const at = position[i] as number;
    offLineDb[i] = levelDbmv - targetAt(lineDbmv, at);
    const deviationDb = levelDbmv - targetAt(design, at);
    // The first of equals.
    if (!(Math.abs(deviationDb) > worstDb)) continue;
    worstDb = Math.abs(deviationDb);
    worst = { frequencyMhz, deviationDb };
  }
  const uncertain =
    options.uncertainty == null ? null : standingUncertainty(position, offLineDb, options.uncertainty);
  const u = uncertain?.line ?? null;

  const level = (valueDbmv: number, wantedDbmv: number, uDb: number | null): LevelStanding => {
    const deviationDb = valueDbmv - wantedDbmv;
    const limits = { fromDb: -toleranceDb, toDb: toleranceDb };
    return { valueDbmv, targetDbmv: wantedDbmv, deviationDb, ...judged(deviationDb, uDb, limits) };
  };
  const tiltTargetDb = design.highDbmv - design.lowDbmv;
  const tiltDeviationDb = fit.tiltDb - tiltTargetDb;
  const flatness = judged(fit.flatnessDb, u?.flatnessDb ?? null, { fromDb: null, toDb: flatnessDb });

  const worstUDb =
    uncertain === null ? null : channelUncertaintyAt(uncertain.budget, design, worst.frequencyMhz);
  const channel = judged(worst.deviationDb, worstUDb, { fromDb: -toleranceDb, toDb: toleranceDb });
  const whole = together([channel, flatness]);

  const endAt = (frequencyMhz: number) => ({
    frequencyMhz,
    deviationDb: targetDbmv(lineDbmv, frequencyMhz) - targetDbmv(design, frequencyMhz),
  });
  const headline = headlineOf({
    verdict: whole.verdict,
    toleranceDb,
    low: endAt(chosen.used[0]?.frequencyMhz ?? lowMhz),
    high: endAt(chosen.used.at(-1)?.frequencyMhz ?? highMhz),
    designTiltDb: tiltTargetDb,
    tiltDeviationDb,
    flatness: { valueDb: fit.flatnessDb, targetDb: flatnessDb },
    worst,
    ...(u === null || worstUDb === null
      ? {}
      : { goodToDb: { worstDb: COVERAGE * worstUDb, flatnessDb: COVERAGE * u.flatnessDb } }),
  });
  return done({
    fit,
    levelLow: level(fit.lowDbmv, design.lowDbmv, u?.levelLowDb ?? null),
    levelHigh: level(fit.highDbmv, design.highDbmv, u?.levelHighDb ?? null),
    tilt: {
      valueDb: fit.tiltDb,
      targetDb: tiltTargetDb,
      deviationDb: tiltDeviationDb,
      ...judged(tiltDeviationDb, u?.tiltDb ?? null, { fromDb: -2 * toleranceDb, toDb: 2 * toleranceDb }),
    },
    flatness: {
      valueDb: fit.flatnessDb,
      targetDb: flatnessDb,
      deviationDb: fit.flatnessDb - flatnessDb,
      ...flatness,
    },
    worst: { ...worst, ...channel },
    ...whole,
    headline,
    ...(uncertain === null ? {} : { uncertainty: uncertain }),
    ...(chosen.signals === null ? {} : { signals: chosen.signals }),
  });
}
