import {
  type RangeRun,
  rangeRunAfter,
  rangeRunBegin,
  rangeRunVerdict,
  rangeRunWords,
} from '../../core/gain-control/range-run.ts';
import { atEnd, onTarget, type Proof, STEADY_S, standsStill } from '../../core/set-up/proof.ts';
import type { StepValues } from '../../core/set-up/state.ts';
import type { SetUpStep } from '../../core/set-up/steps.ts';
import type { NoTarget, StepTarget } from '../../core/set-up/target.ts';
import type { WatchedLevel } from '../../core/trend/slope.ts';
import type { LevelUnitWord } from '../../core/words/numbers.ts';
import type { LevelFeed } from './level-feed.ts';
import { type LevelSource, levelsSince } from './level-moment.ts';

/** How far a step is proven by what was read since it began. */
export type StepProofNow = Readonly<{
  proven: boolean;
  words: string;
  /** The level that proves it, dBmV at the port. */
  levelDbmv: number | null;
  range: RangeRun | null;
}>;

export type StepProof = Readonly<{
  read(): StepProofNow;
  onTick(listener: () => void): () => void;
}>;

/** A proof is looked for four times a second: oftener a hand could not follow. */
const LOOK_EVERY_MS = 250;
const WAITING: StepProofNow = { proven: false, words: '', levelDbmv: null, range: null };

const plain = (proof: Proof): StepProofNow => ({ ...proof, range: null });

/**
 * Looks for the proof of a step in the readings as they come.
 * @param fromS  when the step began, seconds on the readings' clock
 */
export function createStepProof(
  feed: LevelFeed,
  source: LevelSource,
  step: SetUpStep,
  target: StepTarget | NoTarget,
  fromS: () => number,
  levelUnit: LevelUnitWord = 'dBmV',
): StepProof {
  let range: RangeRun = rangeRunBegin;
  let rangeS = Number.NEGATIVE_INFINITY;
  let lookedMs = Number.NEGATIVE_INFINITY;
  let now: StepProofNow = WAITING;

  const rangeOf = (readings: readonly WatchedLevel[]): StepProofNow => {
    for (const reading of readings)
      if (reading.atS > rangeS) {
        range = rangeRunAfter(range, reading);
        rangeS = reading.atS;
      }
    return {
      proven: range.phase === 'done',
      words: rangeRunWords(range, levelUnit),
      levelDbmv: range.returnedDbmv,
      range,
    };
  };
  const look = (): StepProofNow => {
    const readings = levelsSince(feed, fromS());
    switch (step.proof) {
      case 'hand':
      case 'sweep':
        return WAITING;
      case 'low-end':
        return plain(atEnd(readings, 'low'));
      case 'high-end':
        return plain(atEnd(readings, 'high'));
      case 'on-target':
        return 'why' in target ? { ...WAITING, words: target.why } : plain(onTarget(readings, target));
      case 'range':
        return rangeOf(readings);
      case 'steady':
        return plain(standsStill(readings, STEADY_S));
    }
  };
  return {
    read: () => {
      // An old level proves nothing.
      if (source.read().at !== 'live') return WAITING;
      const nowMs = feed.nowMs();
      if (nowMs - lookedMs >= LOOK_EVERY_MS) {
        lookedMs = nowMs;
        now = look();
      }
      return now;
    },
    onTick: source.onTick,
  };
}

/** Hundredths are more than a meter deserves, and enough that nothing is lost. */
const kept = (value: number): number => Math.round(value * 100) / 100;

/** What is recorded of a step that a reading proves, by the names that the step keeps. */
export function valuesOf(
  step: SetUpStep,
  proof: Readonly<{ levelDbmv: number | null; range: RangeRun | null }>,
  plan: Readonly<{ pilotMhz: number | null; ambientC: number | null }>,
): StepValues {
  const values: Record<string, number | string> = {};
  const verdict = proof.range === null ? null : rangeRunVerdict(proof.range);
  const known: Readonly<Record<string, number | null>> = {
    levelDbmv: proof.levelDbmv,
    lowDbmv: proof.levelDbmv,
    maxDbmv: proof.levelDbmv,
    setDbmv: proof.levelDbmv,
    returnedDbmv: proof.range?.returnedDbmv ?? null,
    upDb: verdict?.upDb ?? null,
    downDb: verdict?.downDb ?? null,
    ambientC: plan.ambientC,
    pilotMhz: plan.pilotMhz,
    overS: step.proof === 'steady' ? STEADY_S : null,
  };
  for (const { name, kind } of step.values) {
    const value = known[name];
    if (kind === 'number' && value !== null && value !== undefined) values[name] = kept(value);
  }
  return values;
}

/** True when every value that the step asks for is there: then a hand may take the level as it is. */
export const isWhole = (step: SetUpStep, values: StepValues): boolean =>
  step.values.every(({ name, required }) => !required || values[name] !== undefined);
